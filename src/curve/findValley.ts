import type { Shape } from "./meanShape.ts";

/** A minimum of the DTG between two peaks. */
export interface Valley {
  temperature: number;
  /** Height of the lower of the two peaks beside it above the minimum, in standard deviations of such a difference. */
  prominence: number;
}

/** A valley must be this many standard deviations deep to place an edge. */
const DEEP = 5;

/**
 * The lowest point of a DTG between two temperatures, if it is a valley: inside the range, lower than what stands on
 * both sides by at least five standard deviations of a difference of two values.
 *
 * @param options `from_C` to `to_C`: where the valley is looked for; `within_C`: where the peaks beside it are;
 * `summits`: both peaks must have their summit inside `within_C`, so that the flank of a peak beyond it counts for none. @default false
 * @returns null where there is none: an edge then stays where it was.
 */
export function findValley(
  shape: Shape,
  options: { from_C: number; to_C: number; within_C: [number, number]; step_C: number; summits?: boolean },
): Valley | null {
  const { from_C, to_C, within_C, step_C, summits = false } = options;
  const { firstPoint, dtg, noise } = shape;
  const index = (T: number) => Math.round(T / step_C) - firstPoint;
  const first = index(from_C);
  const last = index(to_C);
  if (first < 0 || last >= dtg.length || last - first < 2) return null;
  let low = first;
  for (let k = first; k <= last; k++) {
    // At a gap (an isothermal) the curve is not one curve: what lies beside it is no valley.
    if (Number.isNaN(dtg[k]!)) return null;
    if (dtg[k]! < dtg[low]!) low = k;
  }
  if (low === first || low === last) return null;
  /** Highest point on the way from the valley to `end`; with summits only one from which the DTG falls again. */
  const highest = (end: number) => {
    const step = end > low ? 1 : -1;
    const fall = summits ? DEEP * Math.SQRT2 * noise : Number.NEGATIVE_INFINITY;
    let top = Number.NEGATIVE_INFINITY;
    let beyond = summits ? Number.POSITIVE_INFINITY : 0;
    for (let k = Math.min(Math.max(end, 0), dtg.length - 1); k !== low; k -= step) {
      const value = dtg[k]!;
      if (Number.isNaN(value)) {
        // What stands beyond a gap does not flank this valley.
        top = Number.NEGATIVE_INFINITY;
        beyond = summits ? Number.POSITIVE_INFINITY : 0;
        continue;
      }
      if (value - beyond > fall) top = Math.max(top, value);
      if (summits) beyond = Math.min(beyond, value);
    }
    return top;
  };
  const depth = Math.min(highest(index(within_C[0])), highest(index(within_C[1]))) - dtg[low]!;
  const prominence = noise > 0 ? depth / (Math.SQRT2 * noise) : depth > 0 ? Number.MAX_VALUE : 0;
  if (prominence < DEEP) return null;
  const [a, b, c] = [dtg[low - 1]!, dtg[low]!, dtg[low + 1]!];
  const curvature = a - 2 * b + c;
  const shift = curvature > 0 ? (a - c) / (2 * curvature) : 0;
  // To a tenth of a degree: an edge is no more exact than that, and a person can read it.
  return { temperature: Math.round(10 * (firstPoint + low + shift) * step_C) / 10, prominence };
}
