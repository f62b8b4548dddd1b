import { addTo } from "../curve/functional.ts";
import { massAt } from "../curve/massAt.ts";
import { pullBack } from "../curve/pullBack.ts";
import type { Curve } from "../curve/types.ts";
import type { Window } from "./types.ts";

/** A peak is prominent if it stands this many standard deviations of the DTG above the valleys beside it. */
const PROMINENT = 5;
/** Without noise a peak must still stand this share of its height above the valleys. */
const SHARE = 0.01;

/**
 * The DTG maximum inside a window, between grid points by the parabola through the three highest.
 *
 * @returns Temperature, °C, and DTG, unit of the run's mass per °C; null where the maximum stands at an edge of the
 * window or is not prominent against the noise: then there is no peak to name.
 */
export function findPeak(
  curve: Curve,
  window: Pick<Window, "from_C" | "to_C">,
): { temperature: number; dtg: number } | null {
  const { temperature, dtg, options } = curve;
  const step = options.grid.step_C;
  let first = 0;
  while (first < temperature.length && temperature[first]! < window.from_C) first++;
  let last = temperature.length - 1;
  while (last > first && temperature[last]! > window.to_C) last--;
  let top = first;
  for (let k = first; k <= last; k++) if (dtg[k]! > dtg[top]!) top = k;
  if (top <= first || top >= last) return null;
  // Across an isothermal the neighbours are not neighbours.
  if (temperature[top + 1]! - temperature[top - 1]! > 2.5 * step) return null;
  let left = dtg[top]!;
  for (let k = first; k < top; k++) left = Math.min(left, dtg[k]!);
  let right = dtg[top]!;
  for (let k = top + 1; k <= last; k++) right = Math.min(right, dtg[k]!);
  const prominence = dtg[top]! - Math.max(left, right);
  if (prominence <= SHARE * dtg[top]! || prominence <= PROMINENT * dtgNoise(curve, top)) return null;
  const [a, b, c] = [dtg[top - 1]!, dtg[top]!, dtg[top + 1]!];
  const curvature = a - 2 * b + c;
  const shift = curvature < 0 ? (a - c) / (2 * curvature) : 0;
  return { temperature: temperature[top]! + shift * step, dtg: b - ((a - c) * shift) / 4 };
}

/** Standard deviation of the DTG near grid point k from the noise of the readings, unit of mass per °C. */
function dtgNoise(curve: Curve, k: number): number {
  const noise = Math.max(curve.noise.sd, curve.run.massResolution / Math.sqrt(12));
  const step = curve.options.grid.step_C;
  const T = curve.temperature[k]!;
  // The difference of the smoothed masses two steps apart follows the slope of the local polynomial.
  const before = massAt(curve, T - step, "entering");
  const after = massAt(curve, T + step, "entering");
  if (before === null || after === null) return Number.POSITIVE_INFINITY;
  let sum = 0;
  for (const w of pullBack(curve, addTo(before, after, -1))) sum += w * w;
  return (noise * Math.sqrt(sum)) / (2 * step);
}
