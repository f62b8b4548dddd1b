import type { Interval, Missing } from "./missing.ts";
import { studentCdf } from "./studentCdf.ts";
import { studentTest } from "./studentTest.ts";

/** What an estimate is held against. */
export interface EquivalenceOptions {
  /** Standard error of the estimate, its unit, zero or more. */
  se: number;
  /** Degrees of freedom of the standard error; Infinity where it is known. */
  df: number;
  /** Largest difference that does not matter: ±margin, or two ends, for instance of a ratio's logarithm. */
  margin: number | Interval;
  /** Significance of each of the two one-sided tests. @default 0.05 */
  alpha?: number;
}

/** Result of {@link equivalence}: the interval of level 1 − 2α, and what follows from it. */
export interface Equivalence extends Interval {
  /** The larger p of the two one-sided tests: below α, the difference is shown to lie within the margin. */
  p: number;
  /** p of the test that the difference lies beyond an end of the margin: below α, it is shown to lie outside. */
  pOutside: number;
  verdict: "within" | "outside" | "not shown";
}

/**
 * Two one-sided tests: is a difference shown to be too small to matter? (D. J. Schuirmann, J Pharmacokinet Biopharm
 * 15:657–680, 1987.) `within` is the interval of level 1 − 2α wholly inside the margin; `outside` is the interval wholly
 * beyond one of its ends; otherwise nothing is shown.
 *
 * @param estimate The difference, any unit.
 * @returns `no-scatter` where the standard error is zero.
 * @throws {TypeError} An estimate that is not a finite number.
 * @throws {RangeError} A margin that is not positive, ends in the wrong order, or se, df, alpha outside their limits.
 * @example
 * ```ts
 * const test = equivalence(0.1, { se: 0.3, df: 20, margin: 1 });
 * if ("missing" in test || test.verdict !== "within") throw new Error("0.1 ± 0.52 lies within ±1");
 * ```
 */
export function equivalence(estimate: number, options: EquivalenceOptions): Equivalence | Missing {
  const { se, df, margin, alpha = 0.05 } = options;
  const ends = typeof margin === "number" ? { low: -margin, high: margin } : margin;
  if (!(ends.low < ends.high && Number.isFinite(ends.low) && Number.isFinite(ends.high))) {
    throw new RangeError(
      typeof margin === "number"
        ? `Give a positive margin, not ${margin}`
        : `Give the ends of the margin in rising order, not ${margin.low} and ${margin.high}`,
    );
  }
  if (!(alpha > 0 && alpha < 0.5)) throw new RangeError(`Give a significance between 0 and 0.5, not ${alpha}`);
  const test = studentTest(estimate, { se, df, level: 1 - 2 * alpha });
  if ("missing" in test) return test;
  // Each end is tested in both directions, with the small side of each probability computed.
  const above = (end: number) => studentCdf((end - estimate) / se, df);
  const below = (end: number) => studentCdf((estimate - end) / se, df);
  const p = Math.max(above(ends.low), below(ends.high));
  const pOutside = Math.min(below(ends.low), above(ends.high));
  const verdict = p <= alpha ? "within" : pOutside <= alpha ? "outside" : "not shown";
  return { p, pOutside, verdict, low: test.low, high: test.high };
}
