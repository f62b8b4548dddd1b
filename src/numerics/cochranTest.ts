import { finite } from "./finite.ts";
import { fProbability } from "./fProbability.ts";
import { fQuantile } from "./fQuantile.ts";
import { standardDeviation } from "./standardDeviation.ts";

/** Result of {@link cochranTest}. */
export interface CochranTest {
  /** Largest variance over the sum of all variances, 1/k…1. */
  statistic: number;
  /** The statistic beyond which the largest variance is too large at the significance asked for. */
  critical: number;
  /** Probability of such a statistic or a larger one if all groups scatter alike; an upper bound below a statistic of one half. */
  p: number;
  /** Index of the group with the largest variance. */
  largest: number;
  /** True where the statistic exceeds the critical value. */
  differs: boolean;
}

/**
 * Cochran's C test: is the largest of several variances too large for groups that scatter alike? (W. G. Cochran, Annals
 * of Eugenics 11:47–52, 1941; the test for the scatter of laboratories of ISO 5725-2.)
 *
 * The share of one variance in the sum has a beta distribution, so that P(C > c) is at most k times its tail, exactly
 * that from c = ½ on, where two shares cannot exceed c at once: critical value 1/(1 + (k − 1)/F), F the quantile at
 * 1 − α/k with n − 1 and (k − 1)(n − 1) degrees of freedom.
 *
 * @param groups k ≥ 2 groups of the same number n ≥ 2 of values.
 * @param options `significance`: α. @default 0.05
 * @throws {RangeError} Fewer than two groups, groups of different size or of fewer than two values, or α outside 0…1.
 * @throws {TypeError} A value that is not a finite number.
 *
 * Example: `cochranTest([[12.1, 12.5], [20.0, 20.4], [7.1, 9.9]]).largest` is `2`.
 */
export function cochranTest(groups: Iterable<Iterable<number>>, options: { significance?: number } = {}): CochranTest {
  const { significance = 0.05 } = options;
  if (!(significance > 0 && significance < 1)) {
    throw new RangeError(`Give a significance between 0 and 1, not ${significance}`);
  }
  const lists = Array.from(groups, (group) => finite(group, { atLeast: 2, what: "a group of Cochran's test" }));
  const k = lists.length;
  if (k < 2) throw new RangeError(`Give at least two groups for Cochran's test, not ${k}`);
  const n = lists[0]!.length;
  const other = lists.find((list) => list.length !== n);
  if (other) throw new RangeError(`Cochran's test needs groups of one size, not of ${n} and ${other.length} values`);

  const variances = lists.map((list) => standardDeviation(list) ** 2);
  const total = variances.reduce((sum, variance) => sum + variance, 0);
  const largest = variances.indexOf(Math.max(...variances));
  // Groups without any scatter scatter alike.
  const statistic = total === 0 ? 1 / k : variances[largest]! / total;
  const df = { numerator: n - 1, denominator: (k - 1) * (n - 1) };
  const critical = 1 / (1 + (k - 1) / fQuantile(1 - significance / k, df));
  const f = statistic === 1 ? Number.POSITIVE_INFINITY : ((k - 1) * statistic) / (1 - statistic);
  const p = Math.min(1, k * fProbability(f, df));
  return { statistic, critical, p, largest, differs: statistic > critical };
}
