import type { CellKey } from "../protocol/types.ts";

/**
 * Why a comparison has no verdict: a cell of one specimen; no value; no cell of the reference at this mix and age; fewer
 * specimens than the method needs; specimens that do not scatter at all.
 */
export type NoVerdict = "one-specimen" | "no-value" | "no-reference" | "too-few-specimens" | "no-scatter";

/** Whether a difference is shown. `not shown` is never "the same": that only the other verdict can say. */
export type DifferenceVerdict = "lower" | "higher" | "not shown" | NoVerdict;

/** Whether the values are shown to lie within a stated margin of one another, or beyond it. */
export type EquivalenceVerdict = "within margin" | "outside margin" | "not shown" | "no margin given" | NoVerdict;

/** What was asked of a comparison; with it the decisions can be made again. */
export interface Asked {
  /** Curing regime that the others are held against: `CURING` or `CURING:DAYS`. */
  reference: string;
  /** Age that the other ages of a regime are held against, days; null where no cell has an age. */
  reference_age_d: number | null;
  /** Age at which the shortest sufficient curing is looked for, days; null where no cell has an age. */
  test_age_d: number | null;
  adjustment: "holm" | "dunnett";
  scatter: "pooled" | "welch";
  family: "window" | "campaign";
  margins: Margin[];
  requirements: Requirement[];
}

/** The largest difference that does not matter: stated by a person before looking. */
export interface Margin {
  /** Window or property; null for all that have no margin of their own. */
  quantity: string | null;
  /** `share`: of the reference's value (0.1 is 10 %); `value`: in its unit. */
  kind: "share" | "value";
  size: number;
  /** Of a `value`; null: that of the quantity. */
  unit: string | null;
}

/** What a value must reach, or must not exceed. */
export interface Requirement {
  quantity: string;
  at: "least" | "most";
  /** In the unit of the quantity. */
  value: number;
  unit: string;
}

/** Comparisons that are judged together: the risk of even one false difference among all of them is 5 %. */
export interface ContrastFamily {
  family: string;
  /** Comparisons with a p value. */
  size: number;
  adjustment: "holm" | "dunnett";
}

/** One cell against another: one row of contrasts.csv. */
export interface ContrastRow extends CellKey {
  /** Window or property. */
  quantity: string;
  unit: string;
  /** Against another regime at the same age, or the same regime at another age. */
  against: "regime" | "age";
  /** The regime, or `age 28d`. */
  reference: string;
  /** Specimens. */
  n: number;
  n_reference: number;
  value: number | null;
  value_reference: number | null;
  /** Value less reference, unit of the quantity. */
  difference: number | null;
  lo95: number | null;
  hi95: number | null;
  lo90: number | null;
  hi90: number | null;
  df: number | null;
  /** Of this comparison alone, two-sided. */
  p: number | null;
  /** Within its family. */
  p_adjusted: number | null;
  /** Value over reference, %. */
  ratio_pct: number | null;
  ratio_lo95: number | null;
  ratio_hi95: number | null;
  /** Unit of the quantity; a share of the reference is given as what it amounts to here. */
  margin: number | null;
  difference_verdict: DifferenceVerdict;
  equivalence_verdict: EquivalenceVerdict;
  /** The smallest margin that this comparison could have shown with 80 % power, were there no difference. */
  smallest_margin: number | null;
  /** Whether both verdicts survive ±5 °C of each edge and the other rules; null for properties and where there is no verdict. */
  robust: "yes" | "no" | "not tested" | null;
  /** What changes a verdict, and which: `from-5 (difference)`, `area (difference, equivalence)`, … */
  sensitive_to: string[];
  /** What could not be tried, since not every run covers it. */
  untested: string[];
  method: string;
  /** The family of its p value; null without one. */
  family: string | null;
  /** Codes of cautions about either cell. */
  flags: string[];
}

/** How a quantity grows with age in one regime, or with the days of moist curing at one age. */
export interface GrowthRow {
  quantity: string;
  unit: string;
  mix: string | null;
  curing: string | null;
  /** Null where days of curing are what it is held against. */
  curing_d: number | null;
  against: "age" | "curing";
  /** The fixed age; null where age is what it is held against. */
  age_d: number | null;
  n_cells: number;
  n_specimens: number;
  /** Shortest and longest age or curing, days. */
  from_d: number;
  to_d: number;
  /** Per tenfold age, or per day of curing; least squares through the specimens. */
  slope: number | null;
  slope_lo95: number | null;
  slope_hi95: number | null;
  slope_df: number | null;
  /** Theil–Sen. */
  sen_slope: number | null;
  sen_lo95: number | null;
  sen_hi95: number | null;
  /** Jonckheere–Terpstra, two-sided, on specimens. */
  order_p: number | null;
  /** The smallest p that any data of this design could give. */
  order_smallest_p: number | null;
  order_exact: boolean | null;
  /** Mann–Kendall, two-sided, on the means of the cells. */
  trend_p: number | null;
  trend_smallest_p: number | null;
  verdict: "rises" | "falls" | "not shown" | "cannot be shown" | "same-specimens" | "too-few-cells";
  sentence: string;
}

/** One property of one cell: one row of properties.csv. */
export interface PropertyCellRow extends CellKey {
  property: string;
  unit: string;
  n_specimens: number;
  value: number;
  /** Standard deviation of specimens; null for one. */
  sd: number | null;
  /** Standard uncertainty of the mean from the pooled scatter; null where that is not known. */
  u: number | null;
  df: number | null;
  lo95: number | null;
  hi95: number | null;
  /** Share of the reference regime at the same age, %. */
  retention_pct: number | null;
  retention_lo95: number | null;
  retention_hi95: number | null;
  /** Share of the same regime at the reference age, %. */
  share_pct: number | null;
  share_lo95: number | null;
  share_hi95: number | null;
  /** Length changes: change since the end of moist curing. */
  since_curing: number | null;
  since_curing_lo95: number | null;
  since_curing_hi95: number | null;
}

/** How a property and an index go together over cells: one row of together.csv. */
export interface TogetherRow {
  property: string;
  unit: string;
  quantity: string;
  /** Null: all mixes. */
  mix: string | null;
  /** `age`: differences from each age's mean (and mix's); `none`: ages thrown together, which shows growth. */
  adjusted_for: "age" | "none";
  method: "pearson" | "spearman";
  n_cells: number;
  /** Ages (of each mix) that take part. */
  n_groups: number;
  r: number | null;
  lo95: number | null;
  hi95: number | null;
  p: number | null;
  /** All permutations were tried, not a sample. */
  exact: boolean | null;
  verdict: "rise together" | "run against each other" | "not shown" | "too-few-cells" | "no-scatter";
}

/** A cell that has both: one row of the scatter table. */
export interface PairRow extends CellKey {
  property: string;
  unit: string;
  quantity: string;
  n_index: number;
  index: number;
  n_property: number;
  value: number;
  /** Less the mean of all cells of this mix and age; null where no other cell has it. */
  index_less_age: number | null;
  value_less_age: number | null;
}

/** A cell whose hydrate and whose property say different things about it against the reference. */
export interface PartedRow extends CellKey {
  property: string;
  /** Windows whose index has this verdict. */
  quantities: string[];
  reference: string;
  index_verdict: DifferenceVerdict;
  property_verdict: DifferenceVerdict;
  property_equivalence: EquivalenceVerdict;
  sentence: string;
}

/** One duration on the way down from the longest. */
export interface SufficientStep {
  curing_d: number;
  /** Curing as the sheet calls it. */
  curing: string | null;
  n: number;
  value: number | null;
  /** Value over that of the longest, %, and its lower 95 % bound (one-sided). */
  share_pct: number | null;
  share_lower95: number | null;
  /** One-sided p of "worse than the longest by the margin or more". */
  p: number | null;
  df: number | null;
  /** 95 % bound of the value itself (one-sided, on the side of the requirement). */
  bound95: number | null;
  verdict: "longest" | "holds" | "not shown" | "not reached" | NoVerdict;
}

/** Shortest sufficient curing for one quantity, mix and curing. */
export interface SufficientRow {
  quantity: string;
  unit: string;
  mix: string | null;
  curing: string | null;
  /** Age at test. */
  age_d: number;
  longest_d: number;
  margin: Margin | null;
  requirement: Requirement | null;
  /** Null where not even the longest holds, or nothing shorter is asked. */
  sufficient_d: number | null;
  steps: SufficientStep[];
  sentence: string;
  /** Goes with every printing of the result. */
  caution: string;
}

/** Replicates that a difference needs. */
export interface PlanningAim {
  /** Unit of the quantity. */
  difference: number;
  difference_pct: number | null;
  /** Specimens per cell for one comparison; null for more than 100. */
  n: number | null;
  /** … for every comparison of a family as large as the campaign's. */
  n_family: number | null;
}

/** What the campaign's repeatability allows to show. */
export interface PlanningRow {
  quantity: string;
  unit: string;
  /** Mean value of the cells that the scatter comes from. */
  at: number;
  /** Standard deviation of specimens there. */
  sd: number;
  df: number;
  /** Cells whose specimens were pooled. */
  cells: number;
  /** Specimens per cell now, the median. */
  n_now: number;
  comparisons: number;
  /** Smallest true difference found with 80 % power now, by one comparison. */
  detectable: number | null;
  /** … by each comparison of the family. */
  detectable_family: number | null;
  aims: PlanningAim[];
}

/** What a campaign and its properties say about its curing regimes. */
export interface Decisions {
  asked: Asked;
  families: ContrastFamily[];
  contrasts: ContrastRow[];
  growth: GrowthRow[];
  properties: PropertyCellRow[];
  together: TogetherRow[];
  pairs: PairRow[];
  parted: PartedRow[];
  sufficient: SufficientRow[];
  planning: PlanningRow[];
  /** What could not be done, and why. */
  remarks: string[];
}
