import { effectiveDegrees } from "./effectiveDegrees.ts";
import { finite } from "./finite.ts";
import { mean } from "./mean.ts";
import type { Missing } from "./missing.ts";
import { standardDeviation } from "./standardDeviation.ts";
import { type StudentTest, studentTest } from "./studentTest.ts";

/** Options of {@link welch}. */
export interface WelchOptions {
  /** Level of the interval. @default 0.95 */
  level?: number;
  /** @default "two-sided" */
  alternative?: "two-sided" | "less" | "greater";
  /** Fewest values of a group. Two give one degree of freedom, an interval of ±12.7 standard errors: no basis. @default 3 */
  atLeast?: number;
}

/** Result of {@link welch}: test and interval of the difference. */
export interface Welch extends StudentTest {
  /** Mean of the first group less that of the second. */
  difference: number;
  /** Standard error of the difference. */
  se: number;
}

/**
 * Welch's t test: difference of two means where the groups may scatter differently (B. L. Welch, Biometrika 34:28–35,
 * 1947; degrees of freedom by F. E. Satterthwaite, Biometrics Bulletin 2:110–114, 1946).
 *
 * @param a Values of the first group.
 * @param b Values of the second, same unit.
 * @returns `too-few-values`, or `no-scatter` where no value differs from the mean of its group.
 * @throws {TypeError} A value that is not a finite number.
 * @throws {RangeError} `atLeast` below 2, or level outside 0…1.
 * @example
 * ```ts
 * const test = welch([12.1, 12.9, 12.4, 12.7], [11.2, 12.6, 11.9]);
 * if ("missing" in test || Math.abs(test.difference - 0.625) > 1e-12) throw new Error("difference of the means");
 * ```
 */
export function welch(a: Iterable<number>, b: Iterable<number>, options: WelchOptions = {}): Welch | Missing {
  const { atLeast = 3, ...asked } = options;
  if (!(atLeast >= 2)) throw new RangeError(`Welch's test needs at least 2 values a group, not ${atLeast}`);
  const groups = [a, b].map((group) => finite(group, { atLeast: 0, what: "Welch's test" }));
  if (groups.some((group) => group.length < atLeast)) return { missing: "too-few-values" };
  const [first, second] = groups.map((group) => ({
    mean: mean(group),
    // Equal values have no scatter; the rounding of their mean would feign some.
    u: Math.min(...group) === Math.max(...group) ? 0 : standardDeviation(group) / Math.sqrt(group.length),
    df: group.length - 1,
  }));
  const difference = first!.mean - second!.mean;
  const se = Math.hypot(first!.u, second!.u);
  const test = studentTest(difference, { ...asked, se, df: effectiveDegrees([first!, second!]) });
  return "missing" in test ? test : { difference, se, ...test };
}
