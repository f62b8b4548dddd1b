import type { Flag } from "../flags.ts";
import type { Measured } from "../measured.ts";

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

/** Reference of an amount, 100 g of it. */
export type PlainAmountBasis =
  /** The specimen's own ignited mass, a mortar's sand included. */
  | "ignited"
  /** The mass before heating; only where it is the basis of the protocol. */
  | "initial"
  /** Ignited binder of a mortar: its sand taken off. */
  | "ignited-binder"
  /** Anhydrous binder. */
  | "binder"
  /** Fresh paste: binder and mixing water. */
  | "paste";

/** The same, and the same less what the anhydrous binder's and the aggregate's own runs lose in the window. */
export type AmountBasis = PlainAmountBasis | `${PlainAmountBasis}-net`;

/** One phase of one run on one basis: one row of phases.csv. */
export interface PhaseResult {
  phase: string;
  /** Window whose loss it stands for. */
  window: string;
  /** mol of gas per mol of phase that were taken to leave there. */
  mol_lost: number;
  basis: AmountBasis;
  /** g of the phase per 100 g. */
  amount: Measured;
  flags: Flag[];
}

/**
 * Hydroxyl water of AFt and AFm that leaves under AH3. Both hold 12 OH per mol, that is 6 mol of water, which stay when
 * their molecular water (26 and 6 mol) has gone; it leaves in a broad range that reaches under AH3's peak.
 *
 * Either `aft` and `afm` name windows of their own, or `aft_afm` their common one and `afm_share` the share of AFm in its loss.
 */
export interface HydroxylCorrection {
  /** Window of AH3. */
  window: string;
  aft?: string;
  afm?: string;
  aft_afm?: string;
  afm_share?: number;
  u_afm_share?: number;
  /** Share of the 6 hydroxyl waters of AFt that leaves inside AH3's window. @default 0.5 */
  k?: number;
  /** @default 0.3 */
  u_k?: number;
  /** The same of AFm. @default 1 */
  k_afm?: number;
  /** @default 0.1 */
  u_k_afm?: number;
}

/** Carbonated lime counted as portlandite again. */
export interface CarbonationCorrection {
  /** Window of portlandite. */
  window: string;
  /** Window of its carbonate. */
  carbonate: string;
}

/** What is done to losses on their way to amounts; part of a protocol, nothing by default. */
export interface Corrections {
  hydroxyl?: HydroxylCorrection;
  carbonation?: CarbonationCorrection;
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
