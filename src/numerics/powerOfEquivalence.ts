import { integrate } from "./integrate.ts";
import { logGamma } from "./logGamma.ts";
import { normalCdf } from "./normalCdf.ts";
import { studentQuantile } from "./studentQuantile.ts";

/** What the power of a demonstration of equivalence depends on. */
export interface EquivalencePowerOptions {
  /** Standard error of the difference, its unit. */
  se: number;
  /** Degrees of freedom of the standard error, 1 or more; Infinity where it is known. */
  df: number;
  /** True difference, its unit. @default 0 */
  difference?: number;
  /** Significance of each of the two one-sided tests. @default 0.05 */
  alpha?: number;
}

/**
 * Power of two one-sided tests: the probability that a difference is shown to lie within ± a margin (D. J. Schuirmann,
 * J Pharmacokinet Biopharm 15:657–680, 1987).
 *
 * Exact: for a given ratio u of estimated to true standard deviation, both tests succeed where the estimate lies within
 * margin − t·u·se, and the normal probability of that is averaged over u up to where nothing is left (D. B. Owen,
 * Biometrika 52:437–446, 1965). Absolute error below 1e-10. Adding the power of the two tests and taking away one, as is
 * often done, gives less than nothing where the margin is small.
 *
 * @param margin Positive, unit of the difference.
 * @throws {RangeError} margin or se not positive, df below 1, or alpha not between 0 and 0.5.
 * @example
 * ```ts
 * // Six specimens in each of two cells with a standard deviation of one, no true difference, a margin of two.
 * const power = powerOfEquivalence(2, { se: Math.sqrt(2 / 6), df: 10 });
 * if (Math.abs(power - 0.884) > 0.001) throw new Error("shown in 88 of 100 such studies");
 * ```
 */
export function powerOfEquivalence(margin: number, options: EquivalencePowerOptions): number {
  const { se, df, difference = 0, alpha = 0.05 } = options;
  for (const [value, what] of [
    [margin, "margin"],
    [se, "standard error"],
  ] as const) {
    if (!(value > 0 && value < Number.POSITIVE_INFINITY)) throw new RangeError(`Give a positive ${what}, not ${value}`);
  }
  if (!Number.isFinite(difference)) throw new RangeError(`Give a finite difference, not ${difference}`);
  if (!(df >= 1)) throw new RangeError(`Give degrees of freedom of 1 or more, not ${df}`);
  if (!(alpha > 0 && alpha < 0.5)) throw new RangeError(`Give a significance between 0 and 0.5, not ${alpha}`);
  const t = studentQuantile(1 - alpha, df);
  const reach = margin / se;
  const shift = Math.abs(difference) / se;
  /** Probability that the estimate lies within ±(reach − t·u), in standard errors. */
  const success = (u: number) => {
    const half = reach - t * u;
    return half <= 0 ? 0 : normalCdf(half - shift) - normalCdf(-half - shift);
  };
  if (df === Number.POSITIVE_INFINITY) return success(1);
  const constant = Math.LN2 + (df / 2) * Math.log(df / 2) - logGamma(df / 2) - df / 2;
  /** Density of x = ln u: 2(df/2)^(df/2)/Γ(df/2)·u^df·exp(−df·u²/2). */
  const density = (x: number) => Math.exp(constant + df * (x - 0.5 * Math.expm1(2 * x)));
  // ±9 standard deviations of ln u, whose left tail falls as exp(df·x); nothing succeeds from u = reach/t on.
  const from = -9 / Math.sqrt(2 * df) - 18 / df;
  const to = Math.min(Math.log(reach / t), Math.min(2.2, 9 / Math.sqrt(2 * df)));
  if (to <= from) return 0;
  // Halves keep the narrow side of a skew density within reach of the rule.
  const middle = Math.max(from, Math.min(to, -2 / Math.sqrt(df)));
  const part = (a: number, b: number) => integrate((x) => density(x) * success(Math.exp(x)), { from: a, to: b });
  return Math.min(1, part(from, middle) + part(middle, to));
}
