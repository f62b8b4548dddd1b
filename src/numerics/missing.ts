/**
 * Why a statistic cannot be given although the call is in order:
 *
 * - `too-few-values`: fewer values than the method needs;
 * - `no-scatter`: the values do not differ at all, so there is no standard error to hold anything against;
 * - `all-tied`: no pair of values can be put in order;
 * - `perfect-correlation`: the points lie on a line, where the interval of a correlation is not defined;
 * - `not-positive`: a logarithm of a value that is not positive;
 * - `unbounded`: the denominator of a ratio may be zero, so that no finite interval holds the ratio;
 * - `not-attainable`: no outcome, or no allowed number of values, reaches the level or the power asked for.
 */
export type MissingReason =
  | "too-few-values"
  | "no-scatter"
  | "all-tied"
  | "perfect-correlation"
  | "not-positive"
  | "unbounded"
  | "not-attainable";

/**
 * In the place of a statistic that cannot be given. What an honest set of data can bring about (one specimen, equal
 * values, a mean of zero) ends here; what only a mistaken call can (a NaN, lengths that do not match, a probability of 2)
 * is thrown as TypeError or RangeError. No statistic of this folder is ever NaN.
 */
export interface Missing {
  missing: MissingReason;
}

/** Both ends of a confidence interval, unit of what it belongs to. */
export interface Interval {
  low: number;
  high: number;
}
