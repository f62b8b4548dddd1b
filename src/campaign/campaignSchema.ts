import * as v from "valibot";
import type { FlagCode } from "../flags.ts";
import type { Measured } from "../measured.ts";
import type { SettledProtocol } from "../protocol/types.ts";
import type { Reading } from "../read/types.ts";
import { decisionsSchema } from "./decisionsSchema.ts";
import type { Campaign } from "./types.ts";

const text = v.string();
const textOrNull = v.nullable(text);
// What is larger could not be squared any more; no campaign of this program has such numbers.
const LARGEST = 1e60;
const number = v.pipe(v.number(), v.minValue(-LARGEST), v.maxValue(LARGEST));
const numberOrNull = v.nullable(number);
const count = v.pipe(number, v.integer(), v.minValue(0));

const term = v.object({ cause: text, effect: number, key: text });
const measured: v.GenericSchema<unknown, Measured> = v.union(
  [v.object({ missing: text }), v.object({ value: number, u: numberOrNull, terms: v.array(term) })],
  "Expected {value, u, terms} or {missing}",
);
const flag = v.object({
  // A campaign written by a later version may have codes that this one does not know.
  code: v.custom<FlagCode>((code) => typeof code === "string", "Expected a code"),
  severity: v.picklist(["note", "caution", "serious"]),
  sentence: text,
  advice: text,
  window: v.exactOptional(text),
});
const rule = v.picklist(["step", "area", "tangent"]);
const basis = v.picklist(["ignited", "initial", "binder"]);
const amountBasis = v.picklist([
  "ignited",
  "ignited-net",
  "initial",
  "initial-net",
  "ignited-binder",
  "ignited-binder-net",
  "binder",
  "binder-net",
  "paste",
  "paste-net",
]);
const cell = { mix: textOrNull, curing: textOrNull, curing_d: numberOrNull, age_d: numberOrNull };

const head = {
  file: text,
  sha256: textOrNull,
  ...cell,
  specimen: text,
  replicate: textOrNull,
  role: v.picklist(["specimen", "blank", "binder", "aggregate", "control", "check"]),
  session: textOrNull,
};
const windowResult = v.object({
  window: text,
  from_C: number,
  to_C: number,
  rule,
  basis,
  loss_mg: measured,
  loss_pct_initial: measured,
  index: measured,
  index_step: measured,
  index_area: measured,
  index_tangent: measured,
  index_shifted: v.object({
    from_down: numberOrNull,
    from_up: numberOrNull,
    to_down: numberOrNull,
    to_up: numberOrNull,
  }),
  detection_limit: numberOrNull,
  peak_C: numberOrNull,
  peak_dtg_pct_per_C: numberOrNull,
  flags: v.array(flag),
});
const phase = {
  phase: text,
  window: text,
  mol_lost: number,
  basis: amountBasis,
  amount: measured,
  flags: v.array(flag),
};
const done = v.object({
  ...head,
  status: v.picklist(["done", "incomplete"]),
  balance: textOrNull,
  gas: textOrNull,
  crucible: textOrNull,
  // How the file was understood is for people; nothing is computed from it.
  reading: v.custom<Reading>((reading) => isPlain(reading), "Expected an object"),
  rows_read: count,
  rows_used: count,
  start_C: number,
  end_C: number,
  initial_mass_mg: numberOrNull,
  ignited_mass_mg: measured,
  residue_pct: measured,
  loi_pct: measured,
  heating_rate_K_per_min: numberOrNull,
  noise_ug: numberOrNull,
  windows: v.array(windowResult),
  phases: v.array(v.object(phase)),
  peaks: v.array(v.object({ name: text, position_C: numberOrNull, misfit_pct: numberOrNull, index: measured })),
  flags: v.array(flag),
});
const failed = v.object({
  ...head,
  status: v.literal("failed"),
  error: v.object({ code: text, message: text, line: v.exactOptional(count), column: v.exactOptional(count) }),
});
const mix = v.object({
  mix: text,
  w_b: numberOrNull,
  loi_binder_pct: numberOrNull,
  sand_binder_ignited: numberOrNull,
  u_w_b: numberOrNull,
  u_loi_binder_pct: numberOrNull,
  u_sand_binder_ignited: numberOrNull,
  polymer_pct: numberOrNull,
  retarder: textOrNull,
  contents: v.record(text, v.union([number, text])),
});
const age = v.object({
  ...cell,
  window: text,
  rule,
  basis,
  n_specimens: count,
  n_runs: count,
  index: measured,
  index_sd: numberOrNull,
  u_random: numberOrNull,
  u_shared: numberOrNull,
  df: numberOrNull,
  index_u: numberOrNull,
  index_lo95: numberOrNull,
  index_hi95: numberOrNull,
  flags: v.array(flag),
});
const amountRow = v.object({
  ...cell,
  ...phase,
  n_specimens: count,
  n_runs: count,
  amount_sd: numberOrNull,
  u_random: numberOrNull,
  u_shared: numberOrNull,
  df: numberOrNull,
  amount_lo95: numberOrNull,
  amount_hi95: numberOrNull,
});
const quantity = v.picklist(["ettringite", "monosulfate", "ah3", "straetlingite", "bound_water"]);
const eachQuantity = <T extends v.GenericSchema>(of: T) =>
  v.object({ ettringite: of, monosulfate: of, ah3: of, straetlingite: of, bound_water: of });
const plausibility = v.object({
  ...cell,
  mix: text,
  basis: v.picklist(["ignited", "binder", "paste"]),
  by: v.picklist(["phases", "oxides"]),
  sulfate_per_yeelimite: number,
  maxima: eachQuantity(numberOrNull),
  complete: eachQuantity(number),
  exceeded: v.array(v.object({ quantity, value: number, u: numberOrNull, maximum: number })),
  yeelimite_reacted: v.nullable(v.object({ low: number, high: number, valid: v.boolean(), reasons: v.array(text) })),
  ah3_per_ettringite: v.nullable(v.object({ measured: number, theory_low: number, theory_high: numberOrNull })),
  water: v.object({ needed: number, w_b: numberOrNull, reacted_at_most: numberOrNull }),
  flags: v.array(flag),
});
const scatter = v.object({
  window: text,
  model: v.picklist(["proportional", "linear", "constant"]),
  a: number,
  b: number,
  df: count,
  at_index: number,
  sd: number,
  limit: number,
  kind: v.picklist(["repeatability", "intermediate precision"]),
});
const schema = v.object({
  schema: v.literal("tg-hydrates/campaign/1"),
  version: text,
  // Looked at field by field by checkProtocol.
  protocol: v.custom<SettledProtocol>(
    (protocol) => typeof protocol === "object" && protocol !== null && "settled" in protocol,
    "Expected a settled protocol",
  ),
  mixes: v.array(mix),
  runs: v.array(v.variant("status", [done, failed])),
  ages: v.array(age),
  amounts: v.array(amountRow),
  plausibility: v.array(plausibility),
  scatter: v.array(scatter),
  flags: v.array(flag),
  decisions: v.exactOptional(decisionsSchema),
});

type Exact<A, B> = [A, B] extends [B, A] ? true : false;
// The hand-written interface and the schema are the same type, in both directions.
true satisfies Exact<v.InferOutput<typeof schema>, Campaign>;

/** Checks campaign.json field by field. */
export const campaignSchema: v.GenericSchema<unknown, Campaign> = schema;

/** A reading is nested four deep; what a stranger nests a million deep could not be written again. */
const DEEPEST = 20;

function isPlain(value: unknown, depth = 0): boolean {
  if (typeof value === "number") return depth > 0 && Number.isFinite(value);
  if (typeof value !== "object" || value === null) return depth > 0;
  return depth < DEEPEST && Object.values(value).every((inner) => isPlain(inner, depth + 1));
}
