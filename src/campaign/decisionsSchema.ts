import * as v from "valibot";
import type { Decisions } from "./decisions.ts";

const text = v.string();
const texts = v.array(text);
const textOrNull = v.nullable(text);
const number = v.pipe(v.number(), v.finite());
const numberOrNull = v.nullable(number);
const count = v.pipe(number, v.integer(), v.minValue(0));
const cell = { mix: textOrNull, curing: textOrNull, curing_d: numberOrNull, age_d: numberOrNull };

const adjustment = v.picklist(["holm", "dunnett"]);
const without = ["one-specimen", "no-value", "no-reference", "too-few-specimens", "no-scatter"] as const;
const difference = v.picklist(["lower", "higher", "not shown", ...without]);
const equivalence = v.picklist(["within margin", "outside margin", "not shown", "no margin given", ...without]);
const margin = v.object({
  quantity: textOrNull,
  kind: v.picklist(["share", "value"]),
  size: number,
  unit: textOrNull,
});
const requirement = v.object({ quantity: text, at: v.picklist(["least", "most"]), value: number, unit: text });

const asked = v.object({
  reference: text,
  reference_age_d: numberOrNull,
  test_age_d: numberOrNull,
  adjustment,
  scatter: v.picklist(["pooled", "welch"]),
  family: v.picklist(["window", "campaign"]),
  margins: v.array(margin),
  requirements: v.array(requirement),
});
const contrast = v.object({
  ...cell,
  quantity: text,
  unit: text,
  against: v.picklist(["regime", "age"]),
  reference: text,
  n: count,
  n_reference: count,
  value: numberOrNull,
  value_reference: numberOrNull,
  difference: numberOrNull,
  lo95: numberOrNull,
  hi95: numberOrNull,
  lo90: numberOrNull,
  hi90: numberOrNull,
  df: numberOrNull,
  p: numberOrNull,
  p_adjusted: numberOrNull,
  ratio_pct: numberOrNull,
  ratio_lo95: numberOrNull,
  ratio_hi95: numberOrNull,
  margin: numberOrNull,
  difference_verdict: difference,
  equivalence_verdict: equivalence,
  smallest_margin: numberOrNull,
  robust: v.nullable(v.picklist(["yes", "no", "not tested"])),
  sensitive_to: texts,
  untested: texts,
  method: text,
  family: textOrNull,
  flags: texts,
});
const growth = v.object({
  quantity: text,
  unit: text,
  mix: textOrNull,
  curing: textOrNull,
  curing_d: numberOrNull,
  against: v.picklist(["age", "curing"]),
  age_d: numberOrNull,
  n_cells: count,
  n_specimens: count,
  from_d: number,
  to_d: number,
  slope: numberOrNull,
  slope_lo95: numberOrNull,
  slope_hi95: numberOrNull,
  slope_df: numberOrNull,
  sen_slope: numberOrNull,
  sen_lo95: numberOrNull,
  sen_hi95: numberOrNull,
  order_p: numberOrNull,
  order_smallest_p: numberOrNull,
  order_exact: v.nullable(v.boolean()),
  trend_p: numberOrNull,
  trend_smallest_p: numberOrNull,
  verdict: v.picklist(["rises", "falls", "not shown", "cannot be shown", "same-specimens", "too-few-cells"]),
  sentence: text,
});
const property = v.object({
  ...cell,
  property: text,
  unit: text,
  n_specimens: count,
  value: number,
  sd: numberOrNull,
  u: numberOrNull,
  df: numberOrNull,
  lo95: numberOrNull,
  hi95: numberOrNull,
  retention_pct: numberOrNull,
  retention_lo95: numberOrNull,
  retention_hi95: numberOrNull,
  share_pct: numberOrNull,
  share_lo95: numberOrNull,
  share_hi95: numberOrNull,
  since_curing: numberOrNull,
  since_curing_lo95: numberOrNull,
  since_curing_hi95: numberOrNull,
});
const together = v.object({
  property: text,
  unit: text,
  quantity: text,
  mix: textOrNull,
  adjusted_for: v.picklist(["age", "none"]),
  method: v.picklist(["pearson", "spearman"]),
  n_cells: count,
  n_groups: count,
  r: numberOrNull,
  lo95: numberOrNull,
  hi95: numberOrNull,
  p: numberOrNull,
  exact: v.nullable(v.boolean()),
  verdict: v.picklist(["rise together", "run against each other", "not shown", "too-few-cells", "no-scatter"]),
});
const pair = v.object({
  ...cell,
  property: text,
  unit: text,
  quantity: text,
  n_index: count,
  index: number,
  n_property: count,
  value: number,
  index_less_age: numberOrNull,
  value_less_age: numberOrNull,
});
const parted = v.object({
  ...cell,
  property: text,
  quantities: texts,
  reference: text,
  index_verdict: difference,
  property_verdict: difference,
  property_equivalence: equivalence,
  sentence: text,
});
const step = v.object({
  curing_d: number,
  curing: textOrNull,
  n: count,
  value: numberOrNull,
  share_pct: numberOrNull,
  share_lower95: numberOrNull,
  p: numberOrNull,
  df: numberOrNull,
  bound95: numberOrNull,
  verdict: v.picklist(["longest", "holds", "not shown", "not reached", ...without]),
});
const sufficient = v.object({
  quantity: text,
  unit: text,
  mix: textOrNull,
  curing: textOrNull,
  age_d: number,
  longest_d: number,
  margin: v.nullable(margin),
  requirement: v.nullable(requirement),
  sufficient_d: numberOrNull,
  steps: v.array(step),
  sentence: text,
  caution: text,
});
const planning = v.object({
  quantity: text,
  unit: text,
  at: number,
  sd: number,
  df: number,
  cells: count,
  n_now: number,
  comparisons: count,
  detectable: numberOrNull,
  detectable_family: numberOrNull,
  aims: v.array(
    v.object({
      difference: number,
      difference_pct: numberOrNull,
      n: v.nullable(count),
      n_family: v.nullable(count),
    }),
  ),
});
const schema = v.object({
  asked,
  families: v.array(v.object({ family: text, size: count, adjustment })),
  contrasts: v.array(contrast),
  growth: v.array(growth),
  properties: v.array(property),
  together: v.array(together),
  pairs: v.array(pair),
  parted: v.array(parted),
  sufficient: v.array(sufficient),
  planning: v.array(planning),
  remarks: texts,
});

type Exact<A, B> = [A, B] extends [B, A] ? true : false;
// The hand-written interface and the schema are the same type, in both directions.
true satisfies Exact<v.InferOutput<typeof schema>, Decisions>;

/** Checks the decisions of campaign.json field by field. */
export const decisionsSchema: v.GenericSchema<unknown, Decisions> = schema;
