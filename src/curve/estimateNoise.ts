import { xMaxValue } from "ml-spectra-processing/x";
import { findRoot } from "../numerics/findRoot.ts";
import { nthSmallest } from "../numerics/nthSmallest.ts";
import { forEachResidual } from "./forEachResidual.ts";
import { residualsOfNoise } from "./residualsOfNoise.ts";
import type { Curve } from "./types.ts";

/** 1/Φ⁻¹(¾): median absolute deviation → standard deviation of a normal distribution (Hampel, JASA 69:383, 1974). */
const MAD = 1.4826;

/** Residuals beyond this many standard deviations are steps or spikes, not noise. */
const CLIP = 4;

/** So many residuals are enough for that scale. */
const ENOUGH = 1000;

/** Where the DTG is below this share of its maximum the smoothing follows the curve without a bias of its own. */
const QUIET = 0.1;
/** The largest correlation that is looked for: beyond it noise and drift are one. */
const HIGHEST = 0.95;

/** Noise of the readings of a run. */
export interface Noise {
  /** Standard deviation of one reading, unit of the run's mass. */
  sd: number;
  /** Correlation of neighbouring readings, 0 to 0.95. */
  lagOne: number;
}

/**
 * Noise of one reading and its lag-one correlation, from the residuals about the smoothed curve. The scale is found by
 * the median absolute deviation, which neither a step nor a spike pulls up; then variance and covariance of what lies
 * within 4 of it are taken and corrected for what the smoothing follows of the noise.
 */
export function estimateNoise(curve: Curve): Noise {
  const quiet = residualsOf(curve, QUIET * xMaxValue(curve.dtg));
  const residuals = quiet.length * 4 > curve.run.mass.length ? quiet : residualsOf(curve, Number.POSITIVE_INFINITY);
  const n = residuals.length;
  if (n < 10) return { sd: 0, lagOne: 0 };
  const scale = MAD * medianSize(residuals);
  const limit = CLIP * scale;
  let [squares, used, products, pairs] = [0, 0, 0, 0];
  for (let i = 0; i < n; i++) {
    const r = residuals[i]!;
    if (Math.abs(r) > limit) continue;
    squares += r * r;
    used++;
    const before = i > 0 ? residuals[i - 1]! : Number.POSITIVE_INFINITY;
    if (Math.abs(before) > limit) continue;
    products += r * before;
    pairs++;
  }
  if (squares === 0 || pairs === 0) return { sd: scale, lagOne: 0 };
  return undoSmoothing(curve, { r0: squares / used, r1: products / pairs });
}

/**
 * The smoothing follows part of the noise, so residuals are smaller and less correlated than the noise is. What white
 * and correlated noise leave behind is computed with the very weights of the curve at some readings in the middle of
 * the longest piece; the correlation that explains the residuals' own is looked for.
 */
function undoSmoothing(curve: Curve, { r0, r1 }: { r0: number; r1: number }): Noise {
  const left = residualsOfNoise(curve);
  const white = left(0);
  if (r1 / r0 <= white.ratio) return { sd: Math.sqrt(r0 / white.variance), lagOne: 0 };
  const beyond = (rho: number): number => left(rho).ratio - r1 / r0;
  const lagOne = beyond(HIGHEST) <= 0 ? HIGHEST : findRoot(beyond, { low: 0, high: HIGHEST, tolerance: 5e-4 });
  return { sd: Math.sqrt(r0 / left(lagOne).variance), lagOne };
}

/** Median of the absolute values; of very many so many that it is known to 3 %: it only says what stands out. */
function medianSize(values: Float64Array): number {
  const stride = Math.max(1, Math.floor(values.length / ENOUGH));
  const sizes = new Float64Array(Math.ceil(values.length / stride));
  for (let i = 0; i < sizes.length; i++) sizes[i] = Math.abs(values[i * stride]!);
  return nthSmallest(sizes, sizes.length >> 1);
}

/** Readings less the smoothed curve, in order, where the DTG is no larger than `limit`. */
function residualsOf(curve: Curve, limit: number): Float64Array {
  const residuals = new Float64Array(curve.run.mass.length);
  const { dtg } = curve;
  let n = 0;
  forEachResidual(curve, (residual, _, k) => {
    if (Math.abs(dtg[k]!) <= limit) residuals[n++] = residual;
  });
  return residuals.subarray(0, n);
}
