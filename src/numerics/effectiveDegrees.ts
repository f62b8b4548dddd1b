/** One component of a combined standard uncertainty. */
export interface UncertaintyComponent {
  /** Its contribution, unit of the result. */
  u: number;
  /** Degrees of freedom; Infinity where it is known, not estimated. */
  df: number;
}

/**
 * Effective degrees of freedom of a combined standard uncertainty by Welch and Satterthwaite:
 * ν = (Σu²)² / Σ(u⁴/νᵢ) (JCGM 100:2008, G.2b).
 *
 * Infinity where every component with a share is known exactly; the smallest df where all components are zero.
 *
 * @throws {RangeError} No component, a negative or infinite u, or df not positive.
 * Example: `effectiveDegrees([{ u: 0.3, df: 2 }, { u: 0.1, df: Infinity }])` is `2.469…`.
 */
export function effectiveDegrees(components: Iterable<UncertaintyComponent>): number {
  const list = [...components];
  if (list.length === 0) throw new RangeError("Give at least one component of the uncertainty");
  for (const { u, df } of list) {
    if (!(Number.isFinite(u) && u >= 0)) throw new RangeError(`Give a standard uncertainty of zero or more, not ${u}`);
    if (!(df > 0)) throw new RangeError(`Give positive degrees of freedom, not ${df}`);
  }
  const largest = Math.max(...list.map(({ u }) => u));
  if (largest === 0) return Math.min(...list.map(({ df }) => df));
  // Shares of the largest component: fourth powers of small numbers must not underflow.
  let variance = 0;
  let fourth = 0;
  for (const { u, df } of list) {
    const square = (u / largest) ** 2;
    variance += square;
    fourth += square ** 2 / df;
  }
  return fourth === 0 ? Number.POSITIVE_INFINITY : variance ** 2 / fourth;
}
