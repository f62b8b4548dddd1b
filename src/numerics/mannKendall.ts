import { sum } from "d3-array";
import { finite } from "./finite.ts";
import type { Missing } from "./missing.ts";
import { normalCdf } from "./normalCdf.ts";
import { orderDistribution } from "./orderDistribution.ts";
import { orderVariance } from "./orderVariance.ts";
import { tieSizes } from "./tieSizes.ts";

/** Options of {@link mannKendall}. */
export interface MannKendallOptions {
  /** @default "two-sided" */
  alternative?: "two-sided" | "increasing" | "decreasing";
  /** Most values for which the exact distribution is worked out. @default 100 */
  exactUpTo?: number;
}

/** Result of {@link mannKendall}. */
export interface MannKendall {
  /** Pairs that rise with time less pairs that fall. */
  s: number;
  /** Kendall's τ_b: S over √(all pairs · pairs that are not equal in value), −1…1. */
  tau: number;
  /** Probability of such an S or one further out if the order is chance. */
  p: number;
  /** The smallest p that any order of these values could give: above α, no trend can be shown with so few. */
  smallestP: number;
  exact: boolean;
}

/**
 * Is there a trend in time? The test of H. B. Mann (Econometrica 13:245–259, 1945) on Kendall's S, for any steady
 * growth or decline, straight or not.
 *
 * p is exact, with ties given as they are, up to `exactUpTo` values; beyond it from the normal distribution with the
 * variance corrected for ties and a continuity correction of one (M. G. Kendall, Rank Correlation Methods, 1975).
 *
 * @param values In order of time, one for each time.
 * @returns `too-few-values` below two; `all-tied` where all are equal.
 * @throws {TypeError} A value that is not a finite number.
 * @example
 * ```ts
 * const test = mannKendall([5.1, 7.9, 8.8, 9.3]);
 * if ("missing" in test || Math.abs(test.p - 2 / 24) > 1e-12) throw new Error("four ages cannot reach 0.05");
 * ```
 */
export function mannKendall(values: Iterable<number>, options: MannKendallOptions = {}): MannKendall | Missing {
  const { alternative = "two-sided", exactUpTo = 100 } = options;
  const list = finite(values, { atLeast: 0, what: "a test of trend" });
  const n = list.length;
  if (n < 2) return { missing: "too-few-values" };
  const ties = tieSizes(list);
  if (ties.length === 1) return { missing: "all-tied" };
  let s = 0;
  for (let i = 0; i < n; i++) {
    for (let j = i + 1; j < n; j++) s += Math.sign(list[j]! - list[i]!);
  }
  const most = (n * (n - 1) - sum(ties, (count) => count * (count - 1))) / 2;
  const exact = n <= exactUpTo;
  // Values that are equal are the groups, the times what is dealt out to them; S and −S are equally likely.
  const upperTail = exact
    ? exactTail(orderDistribution(ties), most)
    : normalTail(2 * Math.sqrt(orderVariance(new Array<number>(n).fill(1), ties)));
  const pOf = (statistic: number) => {
    if (alternative === "increasing") return upperTail(statistic);
    if (alternative === "decreasing") return upperTail(-statistic);
    return Math.min(1, 2 * upperTail(Math.abs(statistic)));
  };
  const extreme = alternative === "decreasing" ? -most : most;
  return { s, tau: s / Math.sqrt(((n * (n - 1)) / 2) * most), p: pOf(s), smallestP: pOf(extreme), exact };
}

/** P(S ≥ s) from the distribution of rising pairs. */
function exactTail(distribution: Float64Array, most: number): (s: number) => number {
  return (s) => sum(distribution.subarray((s + most) / 2));
}

/** P(S ≥ s) from the normal distribution; S has steps of two, hence the continuity correction of one. */
function normalTail(deviation: number): (s: number) => number {
  return (s) => normalCdf(-(s - 1) / deviation);
}
