import { median, sum } from "d3-array";
import { finite } from "./finite.ts";
import type { Interval, Missing } from "./missing.ts";
import { normalQuantile } from "./normalQuantile.ts";
import { orderDistribution } from "./orderDistribution.ts";
import { orderVariance } from "./orderVariance.ts";
import { tieSizes } from "./tieSizes.ts";

/** Options of {@link theilSen}. */
export interface TheilSenOptions {
  /** Level of the interval. @default 0.95 */
  level?: number;
  /**
   * `separate`: median of y less slope times median of x, as SciPy's `theilslopes` has by default (W. J. Conover, Practical
   * Nonparametric Statistics, 1980); `joint`: median of y − slope·x, so that half of the points lie above the line.
   * @default "separate"
   */
  intercept?: "separate" | "joint";
  /** Most values for which the interval is exact. @default 100 */
  exactUpTo?: number;
}

/** Result of {@link theilSen}. */
export interface TheilSen {
  /** Unit of y over unit of x. */
  slope: number;
  /** Unit of y. */
  intercept: number;
  /** Of the slope; `not-attainable` where even the steepest and the flattest pair do not reach the level. */
  interval:
    | (Interval & { /** The level the interval really has, at least the one asked for. */ level: number })
    | Missing;
}

/**
 * Slope for the sceptic: the median of the slopes of all pairs of points (H. Theil, Proc K Ned Akad Wet A 53, 1950; P. K.
 * Sen, J Am Stat Assoc 63:1379–1389, 1968). Points far off the line hardly move it.
 *
 * The interval holds the slopes β for which y − βx has no trend by Kendall's S: exact up to `exactUpTo` points, whatever
 * x repeat, beyond it from the normal distribution. It presumes errors of one continuous distribution, so equal y are chance.
 *
 * @param x Unit of x; pairs of equal x have no slope and are passed over.
 * @param y As many as x.
 * @returns `too-few-values` below two points; `all-tied` where all x are equal.
 * @throws {TypeError} A value that is not a finite number.
 * @throws {RangeError} Another number of x than of y, or level outside 0…1.
 * @example
 * ```ts
 * const line = theilSen([0, 1, 2, 3, 4], [1, 3.1, 4.9, 7, 30]);
 * if ("missing" in line || Math.abs(line.slope - 2.05) > 0.1) throw new Error("the last point does not count for more");
 * ```
 */
export function theilSen(x: Iterable<number>, y: Iterable<number>, options: TheilSenOptions = {}): TheilSen | Missing {
  const { level = 0.95, intercept = "separate", exactUpTo = 100 } = options;
  if (!(level > 0 && level < 1)) throw new RangeError(`Give a level between 0 and 1, not ${level}`);
  const across = finite(x, { atLeast: 0, what: "a slope" });
  const up = finite(y, { atLeast: 0, what: "a slope" });
  if (across.length !== up.length) throw new RangeError(`Give as many y as x: ${up.length} for ${across.length}`);
  const n = across.length;
  if (n < 2) return { missing: "too-few-values" };
  const sizes = tieSizes(across);
  if (sizes.length === 1) return { missing: "all-tied" };
  const slopes: number[] = [];
  for (let i = 0; i < n; i++) {
    for (let j = i + 1; j < n; j++) {
      const run = across[j]! - across[i]!;
      if (run !== 0) slopes.push((up[j]! - up[i]!) / run);
    }
  }
  slopes.sort((a, b) => a - b);
  const slope = median(slopes)!;
  const start =
    intercept === "joint"
      ? median(up, (value, i) => value - slope * across[i]!)!
      : median(up)! - slope * median(across)!;
  const cut = n <= exactUpTo ? exactCut(sizes, level) : normalCut(sizes, level);
  const interval = cut
    ? { low: slopes[cut.left]!, high: slopes[slopes.length - 1 - cut.left]!, level: cut.level }
    : ({ missing: "not-attainable" } as const);
  return { slope, intercept: start, interval };
}

/** How many slopes may be left out at each end, and the level that is kept. */
function exactCut(sizes: number[], level: number): { left: number; level: number } | null {
  const distribution = orderDistribution(sizes);
  let outside = distribution[0]!;
  if (1 - 2 * outside < level) return null;
  let left = 0;
  while (left + 1 < distribution.length / 2 && 1 - 2 * (outside + distribution[left + 1]!) >= level) {
    left++;
    outside += distribution[left]!;
  }
  return { left, level: 1 - 2 * outside };
}

/** The same by the normal distribution of S, to the nearest slope as P. K. Sen has it. */
function normalCut(sizes: number[], level: number): { left: number; level: number } {
  const n = sum(sizes);
  const pairs = (n * n - sum(sizes, (size) => size * size)) / 2;
  const deviation = 2 * Math.sqrt(orderVariance(sizes, []));
  const left = Math.round((pairs - normalQuantile(0.5 + level / 2) * deviation) / 2) - 1;
  return { left: Math.max(0, left), level };
}
