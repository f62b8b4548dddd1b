import type { Uncertainty } from "./types.ts";

/**
 * Assumed inputs of the budget where nothing else is known.
 *
 * Temperature: 5 °C without a calibration, about 1 after one (indicated and true temperature may differ by more than 20 °C: ASTM
 * E1582). Buoyancy: the 0.06 mg that a 170 mg alumina crucible with 50 mg of sample gains in nitrogen from 25 to 1000 °C
 * (ideal gas) divided by the shape 1 − T₀/T = 0.77 there; a blank run leaves the reproducibility of the balance, common
 * practice, no source.
 */
export const defaultUncertainty: Readonly<Uncertainty> = {
  temperature_u_C: 5,
  buoyancy_u_mg: 0.08,
  blank_u_mg: 0.01,
  assumed_mass_mg: 30,
  residue_u_mg: 0.05,
  baseline_choice: false,
};
