import { type Correlation, type CorrelationOptions, correlate } from "./correlate.ts";
import type { Missing } from "./missing.ts";

/**
 * Spearman's correlation, how nearly x and y rise together, straight or not: Pearson's of the ranks, equal values sharing their
 * mean rank (C. Spearman, Am J Psychol 15:72–101, 1904). Interval by Fisher's transform with the variance (1 + r²/2)/(n − 3)
 * of D. G. Bonett and T. A. Wright (Psychometrika 65:23–28, 2000), meant for ten pairs or more and |r| up to 0.95. p as in
 * {@link pearson}: by permutation, exact below ten pairs, seeded above.
 *
 * With `groups`, of the ranks of the differences from the mean of each group, permuted inside groups.
 *
 * @param x Any unit.
 * @param y As many as x.
 * @returns `too-few-values` where n − groups is below 2; `no-scatter` where all x, or all y, are equal (inside their groups).
 * @throws {TypeError} A value that is not a finite number.
 * @throws {RangeError} Another number of y or of groups than of x, or level outside 0…1.
 * @example
 * ```ts
 * const found = spearman([1, 2, 3, 4, 5], [1, 8, 27, 64, 125]);
 * if ("missing" in found || found.r !== 1 || found.p !== 2 / 120) throw new Error("in perfect order, not on a line");
 * ```
 */
export function spearman(
  x: Iterable<number>,
  y: Iterable<number>,
  options: CorrelationOptions = {},
): Correlation | Missing {
  return correlate(x, y, { ...options, ranked: true });
}
