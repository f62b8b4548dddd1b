import { incompleteBeta } from "./incompleteBeta.ts";

/** Degrees of freedom of an F distribution, positive, not necessarily whole. */
export interface FDegrees {
  numerator: number;
  denominator: number;
}

/**
 * Probability that a value of the F distribution exceeds f: the p value of an analysis of variance.
 *
 * By the incomplete beta function (NIST Digital Library of Mathematical Functions, 8.17; Abramowitz and Stegun,
 * Handbook of Mathematical Functions, 26.6.2), with its small side computed, not taken from one.
 *
 * @param f Zero or more; +∞ gives 0.
 * @throws {RangeError} f negative, or degrees of freedom not positive and finite.
 * Example: `fProbability(4.737414, { numerator: 2, denominator: 7 })` is `0.05`.
 */
export function fProbability(f: number, df: FDegrees): number {
  const { numerator, denominator } = df;
  if (!(f >= 0)) throw new RangeError(`Give an F value of zero or more, not ${f}`);
  for (const value of [numerator, denominator]) {
    if (!(value > 0 && value < Number.POSITIVE_INFINITY)) {
      throw new RangeError(`Give positive, finite degrees of freedom, not ${value}`);
    }
  }
  if (f === Number.POSITIVE_INFINITY) return 0;
  // Both shares straight from f: the small one keeps its digits.
  const above = denominator / (denominator + numerator * f);
  const below = (numerator * f) / (denominator + numerator * f);
  return incompleteBeta(above, { a: denominator / 2, b: numerator / 2, complement: below });
}
