import type { Flag } from "../flags.ts";
import type { Rule } from "../losses/types.ts";
import type { Measured } from "../measured.ts";
import type { Plausibility } from "../phases/plausibilityTypes.ts";
import type { AmountBasis, Basis, Mix } from "../phases/types.ts";
import type { CellKey, Job, Role, RunResult, SettledProtocol } from "../protocol/types.ts";
import type { Decisions } from "./decisions.ts";
import type { Scatter } from "./scatterOf.ts";

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
  /** Good to know, stops nothing. */
  remarks: Problem[];
}

/** One row of a drafted run sheet; null is a blank for a person to fill. */
export interface DraftRow {
  file: string;
  mix: string | null;
  curing: string | null;
  curing_d: number | null;
  /** Age in whole minutes. */
  age_min: number | null;
  specimen: string | null;
  replicate: string | null;
  role: Role;
  /** What tells the file from others and could not be put under a column; null where nothing is left. */
  label: string | null;
}

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

/** Scatter of specimens in one window, pooled over the campaign. */
export interface ScatterRow extends Scatter {
  window: string;
  /** Mean index of the cells it comes from, g per 100 g. */
  at_index: number;
  /** Standard deviation there, g per 100 g. */
  sd: number;
  /** 95 % limit of the difference of two specimens there, 1.96·√2·sd (ISO 5725-6). */
  limit: number;
  /** `repeatability`, or `intermediate precision` where the specimens of a cell were measured in several sessions. */
  kind: "repeatability" | "intermediate precision";
}

/** One phase of one cell on one basis. */
export interface AmountRow extends CellKey {
  phase: string;
  window: string;
  mol_lost: number;
  basis: AmountBasis;
  n_specimens: number;
  n_runs: number;
  /** Mean over specimens, g per 100 g. */
  amount: Measured;
  /** Standard deviation of specimens; null for one. */
  amount_sd: number | null;
  u_random: number | null;
  u_shared: number | null;
  df: number | null;
  /** 95 % interval; null where it would be an invention. */
  amount_lo95: number | null;
  amount_hi95: number | null;
  flags: Flag[];
}

/** What the amounts of one cell say about its binder, per 100 g of ignited mass. */
export type PlausibilityRow = CellKey & Plausibility;

/** All runs of one study and what was computed from them. */
export interface Campaign {
  schema: "tg-hydrates/campaign/1";
  version: string;
  protocol: SettledProtocol;
  mixes: Mix[];
  runs: RunResult[];
  ages: AgeRow[];
  /** Amounts of phases per cell. */
  amounts: AmountRow[];
  /** For cells of a mix whose binder the mix table describes. */
  plausibility: PlausibilityRow[];
  scatter: ScatterRow[];
  flags: Flag[];
  /** What `compare` says about the curing regimes; absent until it was asked. */
  decisions?: Decisions;
}
