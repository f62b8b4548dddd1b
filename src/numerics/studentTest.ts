import type { Interval, Missing } from "./missing.ts";
import { studentCdf } from "./studentCdf.ts";
import { studentQuantile } from "./studentQuantile.ts";

/** What an estimate is held against. */
export interface StudentTestOptions {
  /** Standard error of the estimate, its unit, zero or more. */
  se: number;
  /** Degrees of freedom of the standard error; Infinity where it is known. */
  df: number;
  /** The value that is tested. @default 0 */
  hypothesis?: number;
  /** Level of the interval. @default 0.95 */
  level?: number;
  /** Which deviations from the hypothesis count: both, only smaller, only greater. The interval has two sides always. @default "two-sided" */
  alternative?: "two-sided" | "less" | "greater";
}

/** Result of {@link studentTest}. */
export interface StudentTest extends Interval {
  t: number;
  df: number;
  /** Probability of such a t or one further out if the hypothesis is true. */
  p: number;
}

/**
 * Interval and t test of any estimate with a standard error: a difference, a slope, a contrast (Student, Biometrika
 * 6:1–25, 1908).
 *
 * @param estimate The estimate, any unit.
 * @returns `no-scatter` where the standard error is zero.
 * @throws {TypeError} An estimate or hypothesis that is not a finite number.
 * @throws {RangeError} se negative, df not positive, or level outside 0…1.
 * @example
 * ```ts
 * const test = studentTest(1.4, { se: 0.5, df: 10 });
 * if ("missing" in test || test.p > 0.05 || test.low < 0) throw new Error("2.8 standard errors from zero");
 * ```
 */
export function studentTest(estimate: number, options: StudentTestOptions): StudentTest | Missing {
  const { se, df, hypothesis = 0, level = 0.95, alternative = "two-sided" } = options;
  for (const value of [estimate, hypothesis]) {
    if (!Number.isFinite(value)) throw new TypeError(`Give a finite estimate and hypothesis, not ${value}`);
  }
  if (!(se >= 0 && se < Number.POSITIVE_INFINITY)) {
    throw new RangeError(`Give a standard error of zero or more, not ${se}`);
  }
  if (!(level > 0 && level < 1)) throw new RangeError(`Give a level between 0 and 1, not ${level}`);
  const half = studentQuantile(0.5 + level / 2, df) * se;
  if (se === 0) return { missing: "no-scatter" };
  const t = (estimate - hypothesis) / se;
  const p =
    alternative === "two-sided" ? 2 * studentCdf(-Math.abs(t), df) : studentCdf(alternative === "less" ? t : -t, df);
  return { t, df, p, low: estimate - half, high: estimate + half };
}
