import { quickselect } from "d3-array";
import type { Curve } from "./types.ts";

/** 1/Φ⁻¹(¾): median absolute deviation → standard deviation of a normal distribution (Hampel, JASA 69:383, 1974). */
const MAD = 1.4826;

/**
 * Standard deviation of one reading, in the unit of the run's mass: the scaled median of |reading − smoothed curve|,
 * which neither a step nor a spike pulls up, corrected for the share of the noise that the smoothing follows.
 */
export function estimateNoise(curve: Curve): number {
  const { run, mass, temperature, options } = curve;
  const step = options.grid.step_C;
  const deviations = new Float64Array(run.mass.length);
  let n = 0;
  let span = 0;
  for (const { first, gridFirst, gridEnd, knots } of curve.pieces) {
    const low = temperature[gridFirst]!;
    span += temperature[gridEnd - 1]! - low;
    const { knotOf } = knots;
    const readings = knotOf ? knotOf.length : knots.temperature.length;
    for (let i = 0; i < readings; i++) {
      const position = (knots.temperature[knotOf ? knotOf[i]! : i]! - low) / step;
      const k = Math.floor(position);
      if (k < 0 || k >= gridEnd - gridFirst - 1) continue;
      const at = mass[gridFirst + k]!;
      const smooth = at + (position - k) * (mass[gridFirst + k + 1]! - at);
      deviations[n++] = Math.abs(run.mass[first + i]! - smooth);
    }
  }
  if (n < 3) return 0;
  const used = deviations.subarray(0, n);
  const middle = n >> 1;
  const sd = MAD * quickselect(used, middle)[middle]!;
  // A cubic or quadratic filter of w points follows about 9/(4w) of white noise; readings share a grid step or span several.
  const width = Math.max(options.smoothing.width_C, step);
  const perWidth = Math.max((n / Math.max(span, step)) * width, 3);
  return sd / Math.sqrt(1 - Math.min(0.75, 2.25 / perWidth));
}
