import { addWeight, type Functional, functional } from "../curve/functional.ts";
import { noiseOf } from "../curve/noiseOf.ts";
import type { Curve } from "../curve/types.ts";
import type { Window } from "./types.ts";

/**
 * A peak is prominent if it stands this many standard deviations of a difference above the valleys beside it: five beyond
 * the two that the highest and the lowest of the many values of a window are apart by chance.
 */
const PROMINENT = 7;
/** Without noise a peak must still stand this share of its height above the valleys. */
const SHARE = 0.01;

/** A DTG maximum. */
export interface Peak {
  /** °C */
  temperature: number;
  /** Unit of the run's mass per °C. */
  dtg: number;
  /** Change of its temperature with the readings, °C: its noise. */
  jitter: Functional;
}

/**
 * The DTG maximum inside a window, between grid points by a cubic over the smoothing width.
 *
 * @returns Temperature, °C, and DTG, unit of the run's mass per °C; null where the maximum stands at an edge of the
 * window or is not prominent against the noise: then there is no peak to name.
 */
export function findPeak(curve: Curve, window: Pick<Window, "from_C" | "to_C">): Peak | null {
  const { temperature, dtg } = curve;
  let first = 0;
  while (first < temperature.length && temperature[first]! < window.from_C) first++;
  let last = temperature.length - 1;
  while (last > first && temperature[last]! > window.to_C) last--;
  let top = first;
  for (let k = first; k <= last; k++) if (dtg[k]! > dtg[top]!) top = k;
  if (top <= first || top >= last) return null;
  // Across an isothermal the neighbours are not neighbours, however near their temperatures.
  if (reachAbout(curve, top) === 0) return null;
  let left = dtg[top]!;
  for (let k = first; k < top; k++) left = Math.min(left, dtg[k]!);
  let right = dtg[top]!;
  for (let k = top + 1; k <= last; k++) right = Math.min(right, dtg[k]!);
  const prominence = dtg[top]! - Math.max(left, right);
  if (prominence <= SHARE * dtg[top]! || prominence <= PROMINENT * dtgNoise(curve, top)) return null;
  return refine(curve, top);
}

/**
 * Between grid points: the summit of the cubic fitted to the DTG over the smoothing width about its highest point. A
 * parabola through three points would follow the noise; a parabola over the width would lean with a skew peak.
 */
function refine(curve: Curve, top: number): Peak {
  const { temperature, dtg, options } = curve;
  const step = options.grid.step_C;
  let centre = top;
  for (let turn = 0; ; turn++) {
    const reach = reachAbout(curve, centre);
    const fit = cubicFit(dtg, { centre, reach });
    const summit = summitOf(fit.coefficients, reach);
    const jitter = functional();
    const curvature = fit.coefficients[2]! * 2 + fit.coefficients[3]! * 6 * summit;
    for (let j = -reach; j <= reach && curvature < 0; j++) {
      const at = 4 * (j + reach);
      const slope = fit.weights[at + 1]! + summit * (2 * fit.weights[at + 2]! + 3 * summit * fit.weights[at + 3]!);
      // dT = −d(slope at the summit)/curvature there
      addWeight(jitter.dtg, centre + j, (-step * slope) / curvature);
    }
    const moved = Math.round(summit);
    if (moved !== 0 && turn < 3 && reachAbout(curve, centre + moved) > 2) {
      centre += moved;
      continue;
    }
    const [a, b, c, d] = fit.coefficients as [number, number, number, number];
    return {
      temperature: temperature[centre]! + summit * step,
      dtg: a + summit * (b + summit * (c + summit * d)),
      jitter,
    };
  }
}

/** Half the smoothing width in grid points, or what the piece has on both sides. */
function reachAbout(curve: Curve, k: number): number {
  const piece = curve.pieces.find((p) => k >= p.gridFirst && k < p.gridEnd);
  if (!piece) return 0;
  const wished = Math.round(curve.options.smoothing.width_C / 2 / curve.options.grid.step_C);
  return Math.min(Math.max(wished, 2), k - piece.gridFirst, piece.gridEnd - 1 - k);
}

/** Least-squares cubic a + bx + cx² + dx³ over x = −reach … reach; `weights[4·(x + reach) + p]` of y[x] in coefficient p. */
function cubicFit(y: Float64Array, { centre, reach }: { centre: number; reach: number }) {
  const weights = cubicWeights(reach);
  const coefficients = [0, 0, 0, 0];
  for (let p = 0; p < 4; p++) {
    let sum = 0;
    for (let x = -reach; x <= reach; x++) sum += weights[4 * (x + reach) + p]! * y[centre + x]!;
    coefficients[p] = sum;
  }
  return { coefficients, weights };
}

/** Weights by reach: a campaign needs one, and fewer near the ends of a piece. */
const known = new Map<number, Float64Array>();

/** The normal equations of a symmetric design part into even and odd powers. */
function cubicWeights(reach: number): Float64Array {
  const made = known.get(reach);
  if (made) return made;
  const sums = [0, 0, 0, 0];
  for (let x = -reach; x <= reach; x++) {
    for (let p = 0; p < 4; p++) sums[p]! += x ** (2 * p);
  }
  const [s0, s2, s4, s6] = sums as [number, number, number, number];
  const even = s0 * s4 - s2 * s2;
  const odd = s2 * s6 - s4 * s4;
  const weights = new Float64Array(4 * (2 * reach + 1));
  for (let x = -reach; x <= reach; x++) {
    const x2 = x * x;
    // With fewer than five points the odd part is a line.
    const [b, d] = reach >= 2 ? [(x * (s6 - s4 * x2)) / odd, (x * (s2 * x2 - s4)) / odd] : [x / s2, 0];
    weights.set([(s4 - s2 * x2) / even, b, (s0 * x2 - s2) / even, d], 4 * (x + reach));
  }
  if (known.size >= 64) known.clear();
  known.set(reach, weights);
  return weights;
}

/** Where the cubic has its maximum, in grid points from the centre, no further than the fit reaches. */
function summitOf(coefficients: number[], reach: number): number {
  const [, b, c, d] = coefficients as [number, number, number, number];
  if (c >= 0) return 0;
  const root = c * c - 3 * b * d;
  // The maximum of the two extremes of a cubic; for d → 0 it goes over into −b/2c.
  const x = root < 0 ? 0 : b / (-c + Math.sqrt(root));
  return Math.min(Math.max(x, -reach), reach);
}

/** Standard deviation of a difference of two DTG values near grid point k, unit of mass per °C. */
function dtgNoise(curve: Curve, k: number): number {
  const height = functional();
  addWeight(height.dtg, k, 1);
  const { sd, lagOne } = curve.noise;
  const floor = curve.run.massResolution / Math.sqrt(12);
  const noise = { sd: Math.max(sd, floor), lagOne };
  return Math.SQRT2 * noiseOf({ ...curve, noise }, height);
}
