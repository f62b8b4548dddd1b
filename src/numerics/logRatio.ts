import type { Estimate, Ratio, RatioOptions } from "./fieller.ts";
import type { Missing } from "./missing.ts";
import { ratioFactor } from "./ratioFactor.ts";

/** A ratio with its interval, and the standard uncertainty of its logarithm. */
export interface LogRatio extends Ratio {
  /** Natural logarithm of the ratio. */
  logRatio: number;
  /** Standard uncertainty of the logarithm: about the relative uncertainty of the ratio. */
  u: number;
}

/**
 * Interval of a ratio on the scale of logarithms, by the law of propagation (JCGM 100:2008, 5.2.2): for scatter that
 * grows with the value, where ratios are what can be compared. The interval is symmetric as a factor, 0.9 ×/÷ 1.05, and never
 * reaches zero. First order: the relative uncertainties should be below about 20 %; beyond it, and for values near zero,
 * {@link fieller} is right.
 *
 * @returns `not-positive` where numerator or denominator is zero or negative; `no-scatter` where the ratio is not uncertain.
 * @throws {TypeError} A value or covariance that is not a finite number.
 * @throws {RangeError} u negative, df not positive, level outside 0…1, or a covariance beyond the product of the u.
 * @example
 * ```ts
 * const found = logRatio({ value: 18, u: 0.6 }, { value: 20, u: 0.6 }, { df: 12 });
 * if ("missing" in found || Math.abs(found.high / 0.9 - 0.9 / found.low) > 1e-12) throw new Error("the same factor");
 * ```
 */
export function logRatio(numerator: Estimate, denominator: Estimate, options: RatioOptions): LogRatio | Missing {
  const factor = ratioFactor(numerator, denominator, options);
  const { covariance = 0 } = options;
  const { value: a, u: uA } = numerator;
  const { value: b, u: uB } = denominator;
  if (!(a > 0 && b > 0)) return { missing: "not-positive" };
  const variance = (uA / a) ** 2 + (uB / b) ** 2 - (2 * covariance) / a / b;
  if (!(variance > 0)) return { missing: "no-scatter" };
  const u = Math.sqrt(variance);
  const logged = Math.log(a) - Math.log(b);
  return { ratio: a / b, low: Math.exp(logged - factor * u), high: Math.exp(logged + factor * u), logRatio: logged, u };
}
