import { findRoot } from "./findRoot.ts";
import { powerOfEquivalence } from "./powerOfEquivalence.ts";

/** What the smallest margin depends on. */
export interface SmallestMarginOptions {
  /** Degrees of freedom of the standard error, 1 or more; Infinity where it is known. */
  df: number;
  /** Power of the demonstration. @default 0.8 */
  power?: number;
  /** Significance of each of the two one-sided tests. @default 0.05 */
  alpha?: number;
}

/**
 * The smallest margin of equivalence that a comparison could have shown: two one-sided tests find a true difference of
 * zero within ± this margin with the power asked for. It depends on the standard error alone, not on what was found.
 *
 * @param se Standard error of the difference, positive; the margin is in its unit.
 * @throws {RangeError} se not positive, df below 1, or a power or alpha outside their limits.
 * @example
 * ```ts
 * const margin = smallestMargin(0.3, { df: 10 });
 * if (Math.abs(margin / 0.3 - 3.15) > 0.01) throw new Error("about three standard errors");
 * ```
 */
export function smallestMargin(se: number, options: SmallestMarginOptions): number {
  const { df, power = 0.8, alpha = 0.05 } = options;
  if (!(se > 0 && se < Number.POSITIVE_INFINITY)) throw new RangeError(`Give a positive standard error, not ${se}`);
  if (!(power > 0 && power < 1)) throw new RangeError(`Give a power between 0 and 1, not ${power}`);
  const missing = (margin: number) => powerOfEquivalence(margin, { se: 1, df, alpha }) - power;
  let high = 4;
  while (missing(high) < 0) high *= 2;
  return se * findRoot(missing, { low: 1e-9, high, tolerance: 1e-10 });
}
