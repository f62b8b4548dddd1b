/**
 * Reference mass of an index, 100 g of which the loss is given for.
 * `ignited`: the specimen's own ignited mass (a mortar's sand included). `initial`: the mass before heating.
 * `binder`: anhydrous binder, ignited/(1 − LOI of the binder); of a mortar only the binder's share 1/(1 + s).
 */
export type Basis = "ignited" | "initial" | "binder";

/** Assumed inputs of the uncertainty budget; part of a protocol. */
export interface Uncertainty {
  /** Standard uncertainty of the temperature axis, °C: about 1 after a calibration, 5 without. */
  temperature_u_C: number;
  /** Standard uncertainty of the buoyancy's amplitude where no blank run is subtracted, mg. */
  buoyancy_u_mg: number;
  /** … and where one is. */
  blank_u_mg: number;
  /** Initial mass that stands in where a file gives % only, mg. */
  assumed_mass_mg: number;
  /** Standard uncertainty of a furnace residue of the run sheet, mg. */
  residue_u_mg: number;
  /** Whether the choice between the rules step and area is counted as an uncertainty. */
  baseline_choice: boolean;
}

/** What is constant for a mix: one row of the mix table. Fractions are written in %. */
export interface Mix {
  mix: string;
  /** Water-to-binder ratio by mass. */
  w_b: number | null;
  /** Loss on ignition of the anhydrous binder, gypsum water included, % of its mass. */
  loi_binder_pct: number | null;
  /** Ignited sand per ignited binder by mass; null or 0 for a paste. */
  sand_binder_ignited: number | null;
  /** Standard uncertainties of the three above. */
  u_w_b: number | null;
  u_loi_binder_pct: number | null;
  u_sand_binder_ignited: number | null;
  polymer_pct: number | null;
  retarder: string | null;
  /** Every further column of the mix table (phases and sulfate sources in %), by its name. */
  contents: Record<string, number | string>;
}
