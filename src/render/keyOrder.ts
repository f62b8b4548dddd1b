import type { AgeRow, AmountRow, Campaign, PlausibilityRow, ScatterRow } from "../campaign/types.ts";
import type { ErrorData } from "../errors.ts";
import type { Flag } from "../flags.ts";
import type { Ignition, Window } from "../losses/types.ts";
import type { Measured, Term } from "../measured.ts";
import type { Mix, PhaseResult } from "../phases/types.ts";
import type { RunResult, SettledProtocol, WindowResult } from "../protocol/types.ts";
import type { DroppedRows, Reading, Stated, UnderstoodColumn } from "../read/types.ts";
import { decisionsOrder } from "./decisionsOrder.ts";

/** Keys in the order in which they are written; `true` where the value has no keys of its own, or any (then by code unit). */
export type KeyOrder = true | { readonly [key: string]: KeyOrder };

const scatter: Keys<ScatterRow> = {
  window: true,
  model: true,
  a: true,
  b: true,
  df: true,
  at_index: true,
  sd: true,
  limit: true,
  kind: true,
};
/** Keys of every member of a union; one that is not listed is written after the others. */
type Keys<T> = { readonly [K in T extends unknown ? keyof T : never]?: KeyOrder };

const term: Keys<Term> = { cause: true, effect: true, key: true };
const measured: Keys<Measured> = { value: true, u: true, terms: term, missing: true };
const flag: Keys<Flag> = { code: true, severity: true, sentence: true, advice: true, window: true };
const error: Keys<ErrorData> = { code: true, message: true, line: true, column: true };
const column: Keys<UnderstoodColumn> = {
  number: true,
  name: true,
  unit: true,
  quantity: true,
  by: true,
  reason: true,
  confidence: true,
};
const dropped: Keys<DroppedRows> = { reason: true, count: true, lines: true };
const stated: Keys<Stated> = { initial_mass_mg: true, heating_rate_K_per_min: true, gas: true };
const reading: Keys<Reading> = {
  encoding: true,
  delimiter: true,
  decimal_mark: true,
  columns: column,
  rows_read: true,
  rows_dropped: dropped,
  stated,
};
const windowResult: Keys<WindowResult> = {
  window: true,
  from_C: true,
  to_C: true,
  rule: true,
  basis: true,
  loss_mg: measured,
  loss_pct_initial: measured,
  index: measured,
  index_step: measured,
  index_area: measured,
  index_tangent: measured,
  index_shifted: { from_down: true, from_up: true, to_down: true, to_up: true },
  detection_limit: true,
  peak_C: true,
  peak_dtg_pct_per_C: true,
  flags: flag,
};
const phase: Keys<PhaseResult> = {
  phase: true,
  window: true,
  mol_lost: true,
  basis: true,
  amount: measured,
  flags: flag,
};
const run: Keys<RunResult> = {
  file: true,
  sha256: true,
  mix: true,
  curing: true,
  curing_d: true,
  age_d: true,
  specimen: true,
  replicate: true,
  role: true,
  session: true,
  status: true,
  error,
  balance: true,
  gas: true,
  crucible: true,
  reading,
  rows_read: true,
  rows_used: true,
  start_C: true,
  end_C: true,
  initial_mass_mg: true,
  ignited_mass_mg: measured,
  residue_pct: measured,
  loi_pct: measured,
  heating_rate_K_per_min: true,
  noise_ug: true,
  windows: windowResult,
  phases: phase,
  peaks: { name: true, position_C: true, misfit_pct: true, index: measured },
  flags: flag,
};
const window: Keys<Window> = {
  name: true,
  from_C: true,
  to_C: true,
  rule: true,
  note: true,
  anchor_C: true,
  tangent: { before_C: true, after_C: true },
  amount: { phase: true, mol_lost: true, gas: true },
};
const ignition: Keys<Ignition> = {
  temperature_C: true,
  half_width_C: true,
  hold_min: true,
  max_loss: true,
  check_C: true,
};
const limits: Keys<SettledProtocol["limits"]> = {
  heating_rate_K_per_min: true,
  start_max_C: true,
  start_loss_max_pct: true,
};
const protocol: Keys<SettledProtocol> = {
  $schema: true,
  schema: true,
  name: true,
  description: true,
  grid: { step_C: true },
  smoothing: { width_C: true, degree: true },
  windows: window,
  ignition,
  basis: true,
  corrections: {
    hydroxyl: {
      ...{ window: true, aft: true, afm: true, aft_afm: true, afm_share: true, u_afm_share: true },
      ...{ k: true, u_k: true, k_afm: true, u_k_afm: true },
    },
    carbonation: { window: true, carbonate: true },
  },
  limits,
  uncertainty: true,
  settled: { by: true },
};
const mix: Keys<Mix> = {
  mix: true,
  w_b: true,
  loi_binder_pct: true,
  sand_binder_ignited: true,
  u_w_b: true,
  u_loi_binder_pct: true,
  u_sand_binder_ignited: true,
  polymer_pct: true,
  retarder: true,
  contents: true,
};
const age: Keys<AgeRow> = {
  mix: true,
  curing: true,
  curing_d: true,
  age_d: true,
  window: true,
  rule: true,
  basis: true,
  n_specimens: true,
  n_runs: true,
  index: measured,
  index_sd: true,
  u_random: true,
  u_shared: true,
  df: true,
  index_u: true,
  index_lo95: true,
  index_hi95: true,
  flags: flag,
};
const amountRow: Keys<AmountRow> = {
  mix: true,
  curing: true,
  curing_d: true,
  age_d: true,
  phase: true,
  window: true,
  mol_lost: true,
  basis: true,
  n_specimens: true,
  n_runs: true,
  amount: measured,
  amount_sd: true,
  u_random: true,
  u_shared: true,
  df: true,
  amount_lo95: true,
  amount_hi95: true,
  flags: flag,
};
const hydrates = { ettringite: true, monosulfate: true, ah3: true, straetlingite: true, bound_water: true } as const;
const plausibility: Keys<PlausibilityRow> = {
  mix: true,
  curing: true,
  curing_d: true,
  age_d: true,
  basis: true,
  by: true,
  sulfate_per_yeelimite: true,
  maxima: hydrates,
  complete: hydrates,
  exceeded: { quantity: true, value: true, u: true, maximum: true },
  yeelimite_reacted: { low: true, high: true, valid: true, reasons: true },
  ah3_per_ettringite: { measured: true, theory_low: true, theory_high: true },
  water: { needed: true, w_b: true, reacted_at_most: true },
  flags: flag,
};
const campaign: Required<Keys<Campaign>> = {
  schema: true,
  version: true,
  protocol,
  mixes: mix,
  runs: run,
  ages: age,
  amounts: amountRow,
  plausibility,
  scatter,
  flags: flag,
  decisions: decisionsOrder,
};

/** Order of the keys of campaign.json and of its parts. */
export const keyOrder: { readonly campaign: Required<Keys<Campaign>> } = { campaign };
