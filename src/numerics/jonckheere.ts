import { sum } from "d3-array";
import { finite } from "./finite.ts";
import type { Missing } from "./missing.ts";
import { normalCdf } from "./normalCdf.ts";
import { orderDistribution } from "./orderDistribution.ts";
import { orderVariance } from "./orderVariance.ts";
import { tiedOrderDistribution } from "./tiedOrderDistribution.ts";
import { tieSizes } from "./tieSizes.ts";

/** Options of {@link jonckheere}. */
export interface JonckheereOptions {
  /** Do the groups rise, fall, or either? Stated before the data are seen. @default "increasing" */
  alternative?: "increasing" | "decreasing" | "two-sided";
  /** Most values for which the exact distribution is worked out. @default 100 */
  exactUpTo?: number;
}

/** Result of {@link jonckheere}. */
export interface Jonckheere {
  /** Pairs of values of two groups in rising order, an equal pair as half. */
  j: number;
  /** What J is on average by chance. */
  expected: number;
  /** Probability of such a J or one further out if all groups have one distribution. */
  p: number;
  /** The smallest p that any arrangement of these values could give: above α, no order can be shown with so few. */
  smallestP: number;
  exact: boolean;
}

/**
 * Do groups rise in their given order? The test of T. J. Terpstra (Indagationes Mathematicae 14:327–333, 1952) and A. R.
 * Jonckheere (Biometrika 41:133–145, 1954) against an ordered alternative, for instance specimens at rising ages.
 *
 * p is exact up to `exactUpTo` values: without ties from the distribution of pairs, with ties by counting every way of
 * dealing the values out, as long as that is feasible (about 25 values in five groups). Beyond it from the normal
 * distribution with the variance corrected for ties, without continuity correction. Two-sided is twice the smaller side.
 *
 * @param groups Values of each group, groups in their order; one group may be empty and is passed over.
 * @returns `too-few-values` with fewer than two groups that hold values; `all-tied` where all values are equal.
 * @throws {TypeError} A value that is not a finite number.
 * @example
 * ```ts
 * const test = jonckheere([[9.8, 10.1, 10.4], [11.9, 12.3, 12.0], [13.1, 12.9, 13.4]]);
 * if ("missing" in test || test.j !== 27 || test.p > 0.001) throw new Error("every pair rises");
 * ```
 */
export function jonckheere(groups: Iterable<Iterable<number>>, options: JonckheereOptions = {}): Jonckheere | Missing {
  const { alternative = "increasing", exactUpTo = 100 } = options;
  const lists = Array.from(groups, (group) => finite(group, { atLeast: 0, what: "a test of order" })).filter(
    (list) => list.length > 0,
  );
  if (lists.length < 2) return { missing: "too-few-values" };
  const values = lists.flat();
  const ties = tieSizes(values);
  if (ties.length === 1) return { missing: "all-tied" };
  const sizes = lists.map((list) => list.length);
  const { rises, falls, exact } = tailsOf(sizes, ties, exactUpTo);
  const pOf = (halves: number): number => {
    if (alternative === "increasing") return Math.min(1, rises(halves));
    if (alternative === "decreasing") return Math.min(1, falls(halves));
    return Math.min(1, 2 * rises(halves), 2 * falls(halves));
  };
  const sorted = values.toSorted((a, b) => a - b);
  const extremes = [sorted, sorted.toReversed()].map((all) => pOf(halfPairs(dealt(all, sizes))));
  const halves = halfPairs(lists);
  return {
    j: halves / 2,
    expected: halfPairsPossible(sizes) / 4,
    p: pOf(halves),
    smallestP: Math.min(...extremes),
    exact,
  };
}

/** Probability of at least, and of at most, so many half pairs. */
function tailsOf(sizes: number[], ties: number[], exactUpTo: number) {
  const n = sum(sizes);
  const untied = ties.length === n;
  const distribution = n > exactUpTo ? null : untied ? orderDistribution(sizes) : tiedOrderDistribution(sizes, ties);
  if (distribution) {
    // Without ties the distribution counts whole pairs.
    const unit = untied ? 2 : 1;
    return {
      rises: (halves: number) => sum(distribution.subarray(halves / unit)),
      falls: (halves: number) => sum(distribution.subarray(0, halves / unit + 1)),
      exact: true,
    };
  }
  const deviation = 2 * Math.sqrt(orderVariance(sizes, ties));
  const centred = (halves: number) => (halves - halfPairsPossible(sizes) / 2) / deviation;
  return {
    rises: (halves: number) => normalCdf(-centred(halves)),
    falls: (halves: number) => normalCdf(centred(halves)),
    exact: false,
  };
}

/** Two for each pair of values of two groups in rising order, one for an equal pair. */
function halfPairs(groups: readonly (readonly number[])[]): number {
  let halves = 0;
  for (const [i, later] of groups.entries()) {
    for (const earlier of groups.slice(0, i).flat()) {
      for (const value of later) halves += 1 + Math.sign(value - earlier);
    }
  }
  return halves;
}

/** Twice the number of pairs of values of two groups. */
function halfPairsPossible(sizes: readonly number[]): number {
  return sum(sizes) ** 2 - sum(sizes, (size) => size * size);
}

/** Values dealt to the groups in their order. */
function dealt(values: readonly number[], sizes: readonly number[]): number[][] {
  return sizes.map((_, i) => values.slice(sum(sizes.slice(0, i)), sum(sizes.slice(0, i + 1))));
}
