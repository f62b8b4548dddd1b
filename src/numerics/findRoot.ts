/** Where a root is looked for. */
export interface RootOptions {
  low: number;
  high: number;
  /** Width, relative to the larger end, at which the search ends. @default 1e-13 */
  tolerance?: number;
}

/**
 * The place between two ends where a continuous function changes sign: the secant rule inside a bracket, with the
 * weight of an end that stays halved (the Illinois rule; M. Dowell and P. Jarratt, BIT 11:168–174, 1971), and bisection
 * where that does not halve the bracket in three steps.
 *
 * @throws {RangeError} A function with one sign at both ends, or not finite there.
 * @example
 * ```ts
 * const root = findRoot((x) => x * x - 2, { low: 0, high: 2 });
 * if (Math.abs(root - Math.SQRT2) > 1e-12) throw new Error("the square root of two");
 * ```
 */
export function findRoot(f: (x: number) => number, options: RootOptions): number {
  const { tolerance = 1e-13 } = options;
  let { low, high } = options;
  let atLow = f(low);
  let atHigh = f(high);
  if (atLow === 0) return low;
  if (atHigh === 0) return high;
  if (!(atLow < 0 !== atHigh < 0 && Number.isFinite(atLow) && Number.isFinite(atHigh))) {
    throw new RangeError(`The function does not change sign between ${low} (${atLow}) and ${high} (${atHigh})`);
  }
  let kept = 0;
  let width = high - low;
  for (let round = 0; round < 300; round++) {
    if (high - low <= tolerance * Math.max(Math.abs(low), Math.abs(high))) break;
    const bisect = round % 3 === 2 && high - low > 0.5 * width;
    if (round % 3 === 2) width = high - low;
    const secant = high - (atHigh * (high - low)) / (atHigh - atLow);
    const x = !bisect && secant > low && secant < high ? secant : 0.5 * (low + high);
    if (x === low || x === high) break;
    const value = f(x);
    if (value === 0) return x;
    if (value < 0 === atHigh < 0) {
      high = x;
      atHigh = value;
      if (kept < 0) atLow /= 2;
      kept = -1;
    } else {
      low = x;
      atLow = value;
      if (kept > 0) atHigh /= 2;
      kept = 1;
    }
  }
  return 0.5 * (low + high);
}
