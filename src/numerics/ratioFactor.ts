import type { Estimate, RatioOptions } from "./fieller.ts";
import { studentQuantile } from "./studentQuantile.ts";

/**
 * The factor of the interval of a ratio, after its input has been checked once for every kind of interval.
 *
 * @throws {TypeError} A value or covariance that is not a finite number.
 * @throws {RangeError} u negative, df not positive, level outside 0…1, or a covariance beyond the product of the u.
 */
export function ratioFactor(numerator: Estimate, denominator: Estimate, options: RatioOptions): number {
  const { df, covariance = 0, level = 0.95 } = options;
  for (const { value, u } of [numerator, denominator]) {
    if (!Number.isFinite(value)) throw new TypeError(`Give finite values for a ratio, not ${value}`);
    if (!(u >= 0 && u < Number.POSITIVE_INFINITY)) {
      throw new RangeError(`Give a standard uncertainty of zero or more, not ${u}`);
    }
  }
  if (!Number.isFinite(covariance)) throw new TypeError(`Give a finite covariance, not ${covariance}`);
  // A billionth more is rounding.
  if (Math.abs(covariance) > numerator.u * denominator.u * (1 + 1e-9)) {
    throw new RangeError(
      `A covariance of ${covariance} is impossible with uncertainties of ${numerator.u} and ${denominator.u}`,
    );
  }
  if (!(level > 0 && level < 1)) throw new RangeError(`Give a level between 0 and 1, not ${level}`);
  return studentQuantile(0.5 + level / 2, df);
}
