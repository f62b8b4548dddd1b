import { incompleteBeta } from "./incompleteBeta.ts";
import { normalCdf } from "./normalCdf.ts";

/**
 * Distribution function of Student's t: the probability of a value below t. The probability of a value above t is
 * `studentCdf(-t, df)`, and of one at least as far from zero `2 * studentCdf(-Math.abs(t), df)`.
 *
 * By the incomplete beta function (Abramowitz and Stegun, Handbook of Mathematical Functions, 26.7.1), the small side
 * computed, not taken from one. Relative error below 1e-11.
 *
 * @param t Any number; −∞ and +∞ give 0 and 1.
 * @param df Degrees of freedom, positive, not necessarily whole; Infinity gives the normal distribution.
 * @throws {RangeError} t NaN, or df not positive.
 * @example
 * ```ts
 * if (Math.abs(studentCdf(4.302652729749464, 2) - 0.975) > 1e-12) throw new Error("the factor of 95 % with df 2");
 * ```
 */
export function studentCdf(t: number, df: number): number {
  if (Number.isNaN(t)) throw new RangeError("Student's distribution function needs a number, not NaN");
  if (!(df > 0)) throw new RangeError(`Give positive degrees of freedom, not ${df}`);
  if (df === Number.POSITIVE_INFINITY) return normalCdf(t);
  const ratio = (t / df) * t;
  // Both shares straight from t: the small one keeps its digits.
  const inside = ratio === Number.POSITIVE_INFINITY ? 1 : ratio / (1 + ratio);
  const outside = 1 / (1 + ratio);
  const tail = 0.5 * incompleteBeta(outside, { a: df / 2, b: 0.5, complement: inside });
  return t < 0 ? tail : 1 - tail;
}
