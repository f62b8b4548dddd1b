import { normalCdf } from "./normalCdf.ts";
import { scatterNodes } from "./scatterNodes.ts";
import { studentCdf } from "./studentCdf.ts";

/**
 * Distribution function of the noncentral t: the probability that (z + δ)/u is below t, where z is standard normal and
 * u² is chi-square over its degrees of freedom. It is what t follows when there is a difference, hence the power of a
 * t test (N. L. Johnson and B. L. Welch, Biometrika 31:362–389, 1940).
 *
 * As the mean of the normal probability over u, by quadrature: absolute error below 1e-12.
 *
 * @param t Any number; −∞ and +∞ give 0 and 1.
 * @param options `df`: degrees of freedom, 0.1 or more; Infinity gives the normal distribution about δ.
 * `noncentrality`: δ, the true difference over its standard error, −1000…1000.
 * @throws {RangeError} t NaN, or df or noncentrality outside their limits.
 * @example
 * ```ts
 * const power = 1 - noncentralStudentCdf(2.2281388519649385, { df: 10, noncentrality: 3 });
 * if (Math.abs(power - 0.7714) > 0.0001) throw new Error("three standard errors are found in three of four cases");
 * ```
 */
export function noncentralStudentCdf(t: number, options: { df: number; noncentrality: number }): number {
  const { df, noncentrality } = options;
  if (Number.isNaN(t)) throw new RangeError("The noncentral distribution function needs a number, not NaN");
  if (!(df >= 0.1)) throw new RangeError(`Give degrees of freedom of 0.1 or more, not ${df}`);
  if (!(Math.abs(noncentrality) <= 1000)) {
    throw new RangeError(`Give a noncentrality between -1000 and 1000, not ${noncentrality}`);
  }
  if (noncentrality === 0) return studentCdf(t, df);
  if (!Number.isFinite(t)) return t < 0 ? 0 : 1;
  const { at, weight } = scatterNodes(df, { sharpness: noncentrality });
  let sum = 0;
  for (let i = 0; i < at.length; i++) sum += weight[i]! * normalCdf(t * at[i]! - noncentrality);
  return Math.min(1, Math.max(0, sum));
}
