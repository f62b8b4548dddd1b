import type { Interval, Missing } from "./missing.ts";
import { ratioFactor } from "./ratioFactor.ts";

/** An estimate with its standard uncertainty, same unit. */
export interface Estimate {
  value: number;
  /** Zero or more. */
  u: number;
}

/** Options of the interval of a ratio. */
export interface RatioOptions {
  /** Degrees of freedom of the uncertainties; Infinity where they are known. */
  df: number;
  /** Covariance of numerator and denominator, product of their units. @default 0 */
  covariance?: number;
  /** Level of the interval. @default 0.95 */
  level?: number;
}

/** A ratio and its interval, a plain number (0.9, not 90 %). */
export interface Ratio extends Interval {
  ratio: number;
}

/**
 * Interval of the ratio of two estimates that both are uncertain (E. C. Fieller, J R Stat Soc B 16:175–185, 1954): all
 * ratios ρ for which numerator − ρ·denominator does not differ from zero. Exact for normal errors whose uncertainties
 * share one estimate of scatter; not symmetric about the ratio.
 *
 * @returns `unbounded` where the denominator itself does not differ from zero at this level, so that no finite interval
 * holds the ratio; `no-scatter` where neither is uncertain.
 * @throws {TypeError} A value or covariance that is not a finite number.
 * @throws {RangeError} u negative, df not positive, level outside 0…1, or a covariance beyond the product of the u.
 * @example
 * ```ts
 * const found = fieller({ value: 18, u: 0.6 }, { value: 20, u: 0.6 }, { df: 12 });
 * if ("missing" in found || found.low > 0.9 || found.high < 0.9) throw new Error("a ratio of 0.9");
 * ```
 */
export function fieller(numerator: Estimate, denominator: Estimate, options: RatioOptions): Ratio | Missing {
  const t = ratioFactor(numerator, denominator, options);
  const { covariance = 0 } = options;
  const { value: a, u: uA } = numerator;
  const { value: b, u: uB } = denominator;
  // (a − ρb)² = t²(uA² − 2ρ·cov + ρ²uB²): a quadratic in ρ that has an inside only while b² > t²uB².
  const leading = (b - t * uB) * (b + t * uB);
  if (!(leading > 0)) return { missing: "unbounded" };
  if (uA === 0 && uB === 0) return { missing: "no-scatter" };
  const middle = a * b - t * t * covariance;
  // Its discriminant over t², multiplied out: the difference of squares would lose the digits of small uncertainties.
  const inner = (uA * b) ** 2 + (uB * a) ** 2 - 2 * a * b * covariance - t * t * ((uA * uB) ** 2 - covariance ** 2);
  const root = t * Math.sqrt(Math.max(0, inner));
  const [low, high] = [(middle - root) / leading, (middle + root) / leading];
  return { ratio: a / b, low, high };
}
