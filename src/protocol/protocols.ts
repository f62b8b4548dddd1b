import type { Protocol } from "./types.ts";

/**
 * The built-in protocols, not yet settled: `settle(protocols.csa)`.
 *
 * `csa`: pastes and mortars of calcium sulfoaluminate cement. Ranges and sources stand in the note of each window.
 */
export const protocols: { csa: Protocol } = {
  csa: {
    schema: "tg-hydrates/protocol/1",
    name: "csa",
    description:
      "Calcium sulfoaluminate paste or mortar, hydration stopped by solvent exchange, dried at 40 °C or less, heated at 5–20 K/min in dry nitrogen.",
    grid: { step_C: 0.5 },
    smoothing: { width_C: 10, degree: 3 },
    windows: [
      {
        name: "aft-afm",
        from_C: 50,
        to_C: 220,
        rule: "step",
        note: "Water of ettringite and monosulfate. Key endotherms of ettringite lie in 50–250 °C (Ceramics-Silikáty 2014, DSC of hydrates). C-S-H, gypsum and retained solvent lose mass here too.",
      },
      {
        name: "ah3",
        from_C: 220,
        to_C: 350,
        rule: "area",
        note: "Aluminium hydroxide. AH3 in calcium aluminate pastes: 260–330 °C (Ramachandran et al., Handbook of Thermal Analysis of Construction Materials, 2002, p. 405). Comparative index, not an amount: an isolated peak loses 13–17 % to its own flanks. C3AH6 and hydroxyl water of AFt and AFm leave here too.",
      },
      {
        name: "ch-range",
        from_C: 400,
        to_C: 500,
        rule: "area",
        note: "Range of portlandite (Weise et al., Materials 14:5859, 2021: 400–500 °C). Portlandite only with a declared lime source; boehmite loses mass here too.",
      },
      {
        name: "carbonate",
        from_C: 600,
        to_C: 850,
        rule: "step",
        note: "Carbon dioxide of carbonates (calcite 600–800 °C: Villagrán-Zaccardi et al., calcite by quantitative TG). Never converted to portlandite by default.",
      },
      {
        name: "bound-water",
        from_C: 50,
        to_C: 550,
        rule: "step",
        note: "All hydrate water up to 550 °C (common practice, no source).",
      },
    ],
    ignition: { temperature_C: 950, half_width_C: 5, hold_min: 5, max_loss: 0.1, check_C: 50 },
    basis: "ignited",
    // Temperature: 1 °C after a two-point calibration, 5 °C without (indicated and true temperature may differ by more
    // than 20 °C: ASTM E1582). Buoyancy: the 0.06 mg that a 170 mg alumina crucible with 50 mg of sample gains in
    // nitrogen from 25 to 1000 °C (ideal gas) divided by the shape 1 − T₀/T = 0.77 there; a blank run leaves the
    // reproducibility of the balance, common practice, no source.
    uncertainty: {
      temperature_u_C: 5,
      buoyancy_u_mg: 0.08,
      blank_u_mg: 0.01,
      assumed_mass_mg: 30,
      residue_u_mg: 0.05,
      baseline_choice: false,
    },
    limits: { heating_rate_K_per_min: [5, 20], start_max_C: 45, start_loss_max_pct: 0.5 },
  },
};
