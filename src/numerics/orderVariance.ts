import { sum } from "d3-array";

/**
 * Variance of the number of pairs in rising order between groups, if chance alone deals the values out, an equal pair
 * counted as half; four times it is the variance of Kendall's S (M. G. Kendall, Rank Correlation Methods, 1975, 4; M.
 * Hollander, D. A. Wolfe and E. Chicken, Nonparametric Statistical Methods, 3rd ed., 6.2, with ties).
 *
 * @param sizes Number of values of each group.
 * @param ties How often each distinct value occurs; a value that occurs once may be left out.
 * @example
 * ```ts
 * if (orderVariance([1, 1, 1, 1], []) * 4 !== (4 * 3 * 13) / 18) throw new Error("n(n − 1)(2n + 5)/18 for S");
 * ```
 */
export function orderVariance(sizes: readonly number[], ties: readonly number[]): number {
  const n = sum(sizes);
  const cubic = (count: number) => count * (count - 1) * (2 * count + 5);
  const pairs = (count: number) => count * (count - 1);
  const triples = (count: number) => count * (count - 1) * (count - 2);
  const main = (cubic(n) - sum(sizes, cubic) - sum(ties, cubic)) / 72;
  const threes = n > 2 ? (sum(sizes, triples) * sum(ties, triples)) / (36 * triples(n)) : 0;
  const twos = n > 1 ? (sum(sizes, pairs) * sum(ties, pairs)) / (8 * pairs(n)) : 0;
  return main + threes + twos;
}
