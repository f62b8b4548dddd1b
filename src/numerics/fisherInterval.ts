import type { Interval, Missing } from "./missing.ts";
import { normalQuantile } from "./normalQuantile.ts";

/** Options of {@link fisherInterval}. */
export interface FisherOptions {
  /** Number of pairs, less the number of groups but one where group means were taken; not necessarily whole. */
  n: number;
  /** Level of the interval. @default 0.95 */
  level?: number;
  /** Variance of the transformed correlation times n − 3: 1 for Pearson's, 1 + r²/2 for Spearman's. @default 1 */
  inflation?: number;
}

/**
 * Interval of a correlation by the transform z = artanh r with the variance 1/(n − 3) (R. A. Fisher, Metron 1:3–32, 1921).
 *
 * @param r Correlation, −1…1.
 * @returns `too-few-values` for n ≤ 3; `perfect-correlation` for r = ±1.
 * @throws {RangeError} r, level or inflation outside their limits.
 * @example
 * ```ts
 * const interval = fisherInterval(0.8, { n: 12 });
 * if ("missing" in interval || interval.low > 0.42 || interval.high < 0.94) throw new Error("0.42 to 0.94");
 * ```
 */
export function fisherInterval(r: number, options: FisherOptions): Interval | Missing {
  const { n, level = 0.95, inflation = 1 } = options;
  if (!(Math.abs(r) <= 1)) throw new RangeError(`Give a correlation between -1 and 1, not ${r}`);
  if (!(level > 0 && level < 1)) throw new RangeError(`Give a level between 0 and 1, not ${level}`);
  if (!(inflation > 0)) throw new RangeError(`Give a positive inflation, not ${inflation}`);
  if (!(n > 3)) return { missing: "too-few-values" };
  // A whole correlation is one but for rounding.
  if (Math.abs(r) > 1 - 1e-15) return { missing: "perfect-correlation" };
  const half = normalQuantile(0.5 + level / 2) * Math.sqrt(inflation / (n - 3));
  const z = Math.atanh(r);
  return { low: Math.tanh(z - half), high: Math.tanh(z + half) };
}
