import { noncentralStudentCdf } from "./noncentralStudentCdf.ts";
import { studentQuantile } from "./studentQuantile.ts";

/** What the power of a comparison depends on. */
export interface PowerOptions {
  /** Standard error of the difference, its unit. */
  se: number;
  /** Degrees of freedom of the standard error; Infinity where it is known. */
  df: number;
  /** Significance of the two-sided test. @default 0.05 */
  alpha?: number;
  /** Critical value of |t| in place of Student's, for instance Dunnett's. */
  critical?: number;
}

/**
 * Power of the two-sided t test: the probability that a true difference is found significant, on whichever side.
 *
 * By the noncentral t distribution (J. Neyman, K. Iwaszkiewicz and S. Kołodziejczyk, Suppl J R Stat Soc 2:107–180,
 * 1935); finds on the wrong side are counted, so that a true difference of zero gives α.
 *
 * @param difference True difference, unit of the standard error.
 * @throws {RangeError} se not positive, df below 1, alpha or critical outside their limits, or a difference that is not finite.
 * @example
 * ```ts
 * // Six specimens in each of two cells with a standard deviation of one, a true difference of two.
 * const power = powerOfDifference(2, { se: Math.sqrt(2 / 6), df: 10 });
 * if (Math.abs(power - 0.8764) > 0.0001) throw new Error("found in 88 of 100 such studies");
 * ```
 */
export function powerOfDifference(difference: number, options: PowerOptions): number {
  const { se, df, alpha = 0.05 } = options;
  if (!Number.isFinite(difference)) throw new RangeError(`Give a finite difference, not ${difference}`);
  if (!(se > 0 && se < Number.POSITIVE_INFINITY)) throw new RangeError(`Give a positive standard error, not ${se}`);
  if (!(df >= 1)) throw new RangeError(`Give degrees of freedom of 1 or more, not ${df}`);
  if (!(alpha > 0 && alpha < 1)) throw new RangeError(`Give a significance between 0 and 1, not ${alpha}`);
  const { critical = studentQuantile(1 - alpha / 2, df) } = options;
  if (!(critical > 0)) throw new RangeError(`Give a positive critical value, not ${critical}`);
  const noncentrality = Math.abs(difference) / se;
  if (noncentrality > FAR) {
    if (critical <= 65) return 1;
    throw new RangeError(
      `A difference of ${noncentrality} standard errors against a critical value of ${critical} is out of range`,
    );
  }
  return (
    noncentralStudentCdf(-critical, { df, noncentrality }) +
    noncentralStudentCdf(-critical, { df, noncentrality: -noncentrality })
  );
}

/** Standard errors beyond which only u > FAR/65 = 15 could hide the difference: less often than 1e-50 with df 1. */
const FAR = 1000;
