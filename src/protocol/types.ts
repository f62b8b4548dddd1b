import type { CurveOptions } from "../curve/types.ts";
import type { ErrorData } from "../errors.ts";
import type { Flag } from "../flags.ts";
import type { PeakFitSpec } from "../losses/fitTypes.ts";
import type { Ignition, LossOptions, Rule, Window } from "../losses/types.ts";
import type { Measured } from "../measured.ts";
import type { Basis, Corrections, PhaseResult, Uncertainty } from "../phases/types.ts";
import type { ColumnOverride, Reading } from "../read/types.ts";

/** Everything that turns a run into indices; one JSON document. */
export interface Protocol extends CurveOptions {
  $schema?: string;
  schema: "tg-hydrates/protocol/1";
  name: string;
  description?: string;
  windows: Window[];
  ignition: Ignition;
  /** Peaks of fixed shape that are fitted to the DTG of every run, beside the windows. */
  peaks?: PeakFitSpec;
  basis: Basis;
  /** What is done to losses on their way to amounts. @default nothing */
  corrections?: Corrections;
  /** Assumed inputs of the uncertainty budget. */
  uncertainty: Uncertainty;
  limits: {
    /** The windows hold for this range. */
    heating_rate_K_per_min: [number, number];
    /** A run that starts above it is flagged. */
    start_max_C: number;
    /** A run that loses more than this before the first window, % of its initial mass, was not dry. */
    start_loss_max_pct: number;
  };
  /** Present once everything that depends on all runs is fixed. */
  settled?: LossOptions["settled"];
}

/** A protocol in which everything that depends on all runs is fixed; losses are taken under such a one only. */
export type SettledProtocol = Protocol & Required<Pick<Protocol, "settled">>;

/** What a row of the run sheet stands for; only specimens make cells. */
export type Role = "specimen" | "blank" | "binder" | "aggregate" | "control" | "check";

/** One row of the run sheet, checked. */
export interface Job {
  /** File name relative to the folder, with `/`. */
  file: string;
  mix: string | null;
  curing: string | null;
  /** Days of curing. */
  curing_d: number | null;
  /** Age in whole minutes; ages are compared in this form. */
  age_min: number | null;
  /** Specimen; where the sheet gives none every row is its own specimen, named after its file. */
  specimen: string;
  replicate: string | null;
  role: Role;
  /** File name of the blank run. */
  blank: string | null;
  session: string | null;
  balance: string | null;
  initial_mass_mg: number | null;
  /** Mass after ignition in a furnace, mg. */
  residue_mg: number | null;
  gas: string | null;
  crucible: string | null;
  note: string | null;
  columns: ColumnOverride[];
  /** 1-based line of the sheet. */
  line: number;
}

/** The cell a run belongs to, as written in every table. */
export interface CellKey {
  mix: string | null;
  curing: string | null;
  curing_d: number | null;
  /** Age in days (whole minutes / 1440). */
  age_d: number | null;
}

/** One fitted peak of one run. */
export interface PeakResult {
  name: string;
  /** Where its maximum is, °C; null where the fit was refused. */
  position_C: number | null;
  /** What the fit leaves of the DTG beyond noise, % of the highest peak; null where it did not come to a fit. */
  misfit_pct: number | null;
  /** Area of the peak in g per 100 g of reference mass. */
  index: Measured;
}

/** An index with one edge of its window moved by 5 °C, g per 100 g; null where the run does not cover it. */
export interface ShiftedIndices {
  from_down: number | null;
  from_up: number | null;
  to_down: number | null;
  to_up: number | null;
}

/** One window of one run, ready for losses.csv. */
export interface WindowResult {
  window: string;
  from_C: number;
  to_C: number;
  rule: Rule;
  basis: Basis;
  loss_mg: Measured;
  loss_pct_initial: Measured;
  /** g per 100 g of reference mass, by the window's own rule. */
  index: Measured;
  index_step: Measured;
  index_area: Measured;
  index_tangent: Measured;
  /** The index with one edge moved by 5 °C at a time. */
  index_shifted: ShiftedIndices;
  /** g per 100 g; null where the budget is not known. An index not above it is flagged `below-detection`. */
  detection_limit: number | null;
  peak_C: number | null;
  /** % of the initial mass per °C. */
  peak_dtg_pct_per_C: number | null;
  flags: Flag[];
}

export interface RunHead extends CellKey {
  file: string;
  sha256: string | null;
  specimen: string;
  replicate: string | null;
  role: Role;
  session: string | null;
}

/** What one run gave: plain JSON data, crosses every border. */
export interface RunDone extends RunHead {
  status: "done" | "incomplete";
  balance: string | null;
  gas: string | null;
  crucible: string | null;
  reading: Reading;
  rows_read: number;
  /** Readings of the analysed heating. */
  rows_used: number;
  start_C: number;
  end_C: number;
  initial_mass_mg: number | null;
  ignited_mass_mg: Measured;
  residue_pct: Measured;
  loi_pct: Measured;
  heating_rate_K_per_min: number | null;
  /** Standard deviation of one reading, µg; null without an absolute mass. */
  noise_ug: number | null;
  windows: WindowResult[];
  /** Amounts of the phases that the windows declare, on every basis; those net of other runs come with the campaign. */
  phases: PhaseResult[];
  /** Fitted peaks, for a protocol with `peaks`. */
  peaks: PeakResult[];
  flags: Flag[];
}

/** A run that could not be read or analysed. */
export interface RunFailed extends RunHead {
  status: "failed";
  error: ErrorData;
}

/** What became of one file. */
export type RunResult = RunDone | RunFailed;
