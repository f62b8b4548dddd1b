import type { Window } from "../losses/types.ts";
import { defaultUncertainty } from "../phases/defaultUncertainty.ts";
import type { Protocol } from "./types.ts";

const csa: Protocol = {
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
      amount: { phase: "calcite", mol_lost: 1 },
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
  uncertainty: { ...defaultUncertainty },
  limits: { heating_rate_K_per_min: [5, 20], start_max_C: 45, start_loss_max_pct: 0.5 },
};

/**
 * AFt and AFm are parted where the campaign shows a minimum between them, else they stay one index without an amount. 26 mol leave
 * ettringite with its molecular water (Ca6[Al(OH)6]2(SO4)3·26H2O, J Chem Soc Faraday Trans 1996, thermal decomposition of
 * ettringite), 6 mol monosulfate; AH3 of cement is poorly crystalline and taken to lose all 3 mol here (common practice, no source).
 */
const amounts: Record<string, Partial<Window>> = {
  "aft-afm": {
    resolve: {
      between_C: [130, 180],
      into: ["aft", "afm"],
      amounts: [
        { phase: "ettringite", mol_lost: 26 },
        { phase: "monosulfate", mol_lost: 6 },
      ],
    },
  },
  ah3: {
    rule: "step",
    amount: { phase: "ah3", mol_lost: 3 },
    note: "Aluminium hydroxide, and the hydroxyl water of AFt and AFm that is taken off by the protocol's correction. C3AH6 leaves here too; boehmite keeps a third of its water to about 500 °C (then 2 mol leave here).",
  },
};

/**
 * The built-in protocols, not yet settled: `settle(protocols.csa)`.
 *
 * `csa`: pastes and mortars of calcium sulfoaluminate cement, for comparison. Its only amount is calcite: a common window of AFt and
 * AFm is not one phase, and the area of AH3 is no amount. `csa-amounts`: the same for amounts, with AFt and AFm parted
 * by the campaign's mean DTG, AH3 by the step less hydroxyl water. Ranges and sources stand in the note of each window.
 */
export const protocols: { csa: Protocol; "csa-amounts": Protocol } = {
  csa,
  "csa-amounts": {
    ...csa,
    name: "csa-amounts",
    description: `${csa.description} For amounts of phases: settled on a campaign that shows AFt and AFm apart.`,
    windows: csa.windows.map((window) => ({ ...window, ...amounts[window.name] })),
    corrections: { hydroxyl: { window: "ah3", aft: "aft", afm: "afm", k: 0.5, u_k: 0.3, k_afm: 1, u_k_afm: 0.1 } },
  },
};
