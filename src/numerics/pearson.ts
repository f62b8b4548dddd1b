import { type Correlation, type CorrelationOptions, correlate } from "./correlate.ts";
import type { Missing } from "./missing.ts";

/**
 * Pearson's correlation, how nearly x and y lie on a line, with Fisher's interval and a permutation test: exact below ten
 * pairs, seeded above.
 *
 * With `groups`, of the differences from the mean of each group: every group after the first costs one degree of freedom, and y
 * are permuted inside groups only. It is the partial correlation given the group. A group of one pair says nothing and is
 * passed over.
 *
 * @param x Any unit.
 * @param y As many as x.
 * @returns `too-few-values` where df is below 1; `no-scatter` where all x, or all y, are equal (inside their groups).
 * @throws {TypeError} A value that is not a finite number.
 * @throws {RangeError} Another number of y or of groups than of x, or level outside 0…1.
 * @example
 * ```ts
 * const found = pearson([12.1, 14.0, 15.2, 17.9, 18.3], [20, 25, 26, 33, 32]);
 * if ("missing" in found || found.r < 0.98 || !found.exact) throw new Error("they rise together");
 * ```
 */
export function pearson(
  x: Iterable<number>,
  y: Iterable<number>,
  options: CorrelationOptions = {},
): Correlation | Missing {
  return correlate(x, y, { ...options, ranked: false });
}
