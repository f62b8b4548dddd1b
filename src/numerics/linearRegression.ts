import { extent, fsum } from "d3-array";
import { finite } from "./finite.ts";
import { mean } from "./mean.ts";
import type { Interval, Missing } from "./missing.ts";
import { studentQuantile } from "./studentQuantile.ts";

/** A parameter of the line, or the line at one place, with its interval. */
export interface LineEstimate extends Interval {
  value: number;
  /** Standard uncertainty. */
  u: number;
}

/** Result of {@link linearRegression}. */
export interface LinearRegression {
  /** Unit of y over unit of x. */
  slope: LineEstimate;
  /** The line at x = 0, unit of y. */
  intercept: LineEstimate;
  /** Scatter of one value about the line, unit of y. */
  residualDeviation: number;
  /** Number of values less two. */
  df: number;
  /** Share of the variance of y that the line explains, 0…1; 1 where y does not vary. */
  rSquared: number;
  /** The line itself (not a single value) at each x of `at`. */
  at: LineEstimate[];
}

/**
 * Straight line by least squares with intervals of slope, intercept and the line itself (J. Neter, W. Wasserman and M. H.
 * Kutner, Applied Linear Statistical Models, chapter 2), for errors of y of one size, independent and normal; x counts as known.
 *
 * Sums of products of deviations from the means, exactly rounded: NIST StRD Norris to 11 digits and more.
 *
 * @param x Unit of x.
 * @param y As many as x.
 * @param options `level` of the intervals. @default 0.95. `at`: places where the line itself is wanted. @default none
 * @returns `too-few-values` below three points; `no-scatter` where all x are equal.
 * @throws {TypeError} A value that is not a finite number.
 * @throws {RangeError} Another number of x than of y, or level outside 0…1.
 * @example
 * ```ts
 * const line = linearRegression([0, 1, 2, 3], [1.1, 2.9, 5.2, 6.8], { at: [4] });
 * if ("missing" in line || Math.abs(line.slope.value - 1.94) > 1e-12) throw new Error("nearly two per step");
 * ```
 */
export function linearRegression(
  x: Iterable<number>,
  y: Iterable<number>,
  options: { level?: number; at?: Iterable<number> } = {},
): LinearRegression | Missing {
  const { level = 0.95, at = [] } = options;
  if (!(level > 0 && level < 1)) throw new RangeError(`Give a level between 0 and 1, not ${level}`);
  const across = finite(x, { atLeast: 0, what: "a regression" });
  const up = finite(y, { atLeast: 0, what: "a regression" });
  const places = finite(at, { atLeast: 0, what: "the places of a regression" });
  const n = across.length;
  if (up.length !== n) throw new RangeError(`Give as many y as x: ${up.length} for ${n}`);
  if (n < 3) return { missing: "too-few-values" };
  const [low, high] = extent(across);
  if (low === high) return { missing: "no-scatter" };

  const [middleX, middleY] = [mean(across), mean(up)];
  const dx = across.map((value) => value - middleX);
  const dy = up.map((value) => value - middleY);
  const squareX = fsum(dx, (value) => value * value);
  const squareY = fsum(dy, (value) => value * value);
  const slope = fsum(dx, (value, i) => value * dy[i]!) / squareX;
  const df = n - 2;
  const residual = fsum(dx, (value, i) => (dy[i]! - slope * value) ** 2);
  const residualDeviation = Math.sqrt(residual / df);
  const factor = studentQuantile(0.5 + level / 2, df);
  const withInterval = (value: number, u: number): LineEstimate => ({
    value,
    u,
    low: value - factor * u,
    high: value + factor * u,
  });
  const lineAt = (place: number) =>
    withInterval(
      middleY + slope * (place - middleX),
      residualDeviation * Math.sqrt(1 / n + (place - middleX) ** 2 / squareX),
    );
  return {
    slope: withInterval(slope, residualDeviation / Math.sqrt(squareX)),
    intercept: lineAt(0),
    residualDeviation,
    df,
    rSquared: squareY === 0 ? 1 : Math.max(0, 1 - residual / squareY),
    at: places.map(lineAt),
  };
}
