import type { ErrorData } from "../errors.ts";
import type { Flag } from "../flags.ts";
import type { Rule } from "../losses/types.ts";
import type { Measured } from "../measured.ts";
import type { Basis, Mix } from "../phases/types.ts";
import type { SettledProtocol } from "../protocol/types.ts";
import type { ColumnOverride, Reading } from "../read/types.ts";

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

/** An error or a remark about a sheet or a mix table. */
export interface Problem {
  source: string;
  line?: number;
  /** Column name. */
  column?: string;
  message: string;
}

/** What is to be done, known before any run is read. */
export interface Plan {
  jobs: Job[];
  mixes: Mix[];
  /** Files of the folder that the sheet leaves out. */
  unlisted: string[];
  /** Errors: nothing is run while there is one. */
  problems: Problem[];
}

/** The cell a run belongs to, as written in every table. */
export interface CellKey {
  mix: string | null;
  curing: string | null;
  curing_d: number | null;
  /** Age in days (whole minutes / 1440). */
  age_d: number | null;
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
  peak_C: number | null;
  /** % of the initial mass per °C. */
  peak_dtg_pct_per_C: number | null;
  flags: Flag[];
}

interface RunHead extends CellKey {
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
  flags: Flag[];
}

/** A run that could not be read or analysed. */
export interface RunFailed extends RunHead {
  status: "failed";
  error: ErrorData;
}

export type RunResult = RunDone | RunFailed;

/** One window of one cell: one row of ages.csv. */
export interface AgeRow extends CellKey {
  window: string;
  rule: Rule;
  basis: Basis;
  n_specimens: number;
  n_runs: number;
  /** Mean over specimens, g per 100 g of reference mass. */
  index: Measured;
  /** Standard deviation of specimens; null for one. */
  index_sd: number | null;
  /** Standard uncertainty of the mean from the scatter of specimens. */
  u_random: number | null;
  u_shared: number | null;
  df: number | null;
  index_u: number | null;
  /** 95 % interval; null where it would be an invention. */
  index_lo95: number | null;
  index_hi95: number | null;
  flags: Flag[];
}

/** All runs of one study and what was computed from them. */
export interface Campaign {
  schema: "tg-hydrates/campaign/1";
  version: string;
  protocol: SettledProtocol;
  mixes: Mix[];
  runs: RunResult[];
  ages: AgeRow[];
  flags: Flag[];
}
