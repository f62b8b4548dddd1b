import { finite } from "./finite.ts";
import { mean } from "./mean.ts";
import { oneWayAnova } from "./oneWayAnova.ts";

/** Result of {@link leveneTest}. */
export interface LeveneTest {
  /** The statistic W: F of the analysis of variance of the absolute deviations. */
  f: number;
  /** Probability of such a W or a larger one if all groups scatter alike. */
  p: number;
  df: { numerator: number; denominator: number };
  /** Indices of the groups that could not take part: fewer than three values. */
  leftOut: number[];
}

/**
 * Do groups of different size scatter alike? Analysis of variance of the absolute deviations from the centre of each
 * group: from its median by M. B. Brown and A. B. Forsythe (J Am Stat Assoc 69:364–367, 1974), which holds its level for
 * skew values too, or from its mean by H. Levene (in: Contributions to Probability and Statistics, Stanford, 1960,
 * 278–292). On logarithms it compares relative scatter.
 *
 * The two deviations of a group of two are equal whatever the values, which would feign precision: such groups are left out
 * and named. With three values a group the median form hardly ever finds anything, the mean form finds too much.
 *
 * @param groups Values of each group.
 * @param options `centre`: deviations from what. @default "median". `logarithms`: of the values. @default false
 * @returns null where fewer than two groups have three values.
 * @throws {TypeError} A value that is not a finite number.
 * @throws {RangeError} `logarithms` with a value that is not positive.
 *
 * Example: `leveneTest([[12.1, 12.5, 12.2], [20.0, 20.4, 20.2, 24.0]], { logarithms: true })!.df.denominator` is `5`.
 */
export function leveneTest(
  groups: Iterable<Iterable<number>>,
  options: { centre?: "median" | "mean"; logarithms?: boolean } = {},
): LeveneTest | null {
  const { centre = "median", logarithms = false } = options;
  const lists = Array.from(groups, (group) => finite(group, { atLeast: 0, what: "Levene's test" }));
  const leftOut = lists.flatMap((list, i) => (list.length < 3 ? [i] : []));
  const kept = lists.filter((list) => list.length >= 3);
  if (kept.length < 2) return null;
  const scaled = logarithms ? kept.map((list) => list.map(logarithm)) : kept;
  const deviations = scaled.map((list) => {
    const middle = centre === "median" ? median(list) : mean(list);
    return list.map((value) => Math.abs(value - middle));
  });
  const { f, p, between, within } = oneWayAnova(deviations);
  return { f, p, df: { numerator: between.df, denominator: within.df }, leftOut };
}

function logarithm(value: number): number {
  if (!(value > 0)) throw new RangeError(`Relative scatter needs positive values, not ${value}`);
  return Math.log(value);
}

function median(list: number[]): number {
  const sorted = list.toSorted((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}
