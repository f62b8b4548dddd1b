import { type Functional, functional } from "../curve/functional.ts";
import type { Curve } from "../curve/types.ts";
import { addScaled } from "../numerics/addScaled.ts";
import { differentiate } from "../numerics/differentiate.ts";
import { dot } from "../numerics/dot.ts";
import { gaussNewton } from "../numerics/gaussNewton.ts";
import type { PeakProblem } from "./fitTypes.ts";
import { noiseCovariance } from "./noiseCovariance.ts";

/** The variance of the DTG by noise is taken at so many points of the range: between them it hardly changes. */
const SAMPLED = 12;

/** What a solution is worth. */
export interface PeakErrors {
  /** Every parameter as weights on the DTG of the range: (JᵀJ)⁻¹Jᵀ. */
  rows: Float64Array[];
  /** The same as weights on the curve. */
  weights: Functional[];
  /** Covariance of the parameters by the balance noise. */
  covariance: number[][];
  /** Mean square of DTG less fit, (unit of mass per °C)². */
  meanSquare: number;
  /** What noise alone would leave of it. */
  expected: number;
  residuals: Float64Array;
}

/**
 * Errors of a least-squares solution on a smoothed curve. Its points are not independent, so the covariance is the one
 * between the slices, (JᵀJ)⁻¹JᵀCJ(JᵀJ)⁻¹ (P. J. Huber, Proc Fifth Berkeley Symp Math Stat Prob 1:221–233, 1967), with C not
 * estimated but carried from the readings through grid and smoothing. What the fit itself follows of the noise, the trace of
 * J(JᵀJ)⁻¹JᵀC, is taken off what noise is expected to leave.
 */
export function peakErrors(curve: Curve, problem: PeakProblem, parameters: readonly number[]): PeakErrors {
  const { x, y, model, typical, range } = problem;
  const n = y.length;
  const fitted = model(parameters);
  const residuals = y.map((value, k) => value - fitted(k));
  // Where the search ended there is a slope.
  const jacobian = differentiate((at) => x.map(model(at)), parameters, { typical })!;
  const rows = gaussNewton(jacobian, residuals)
    .inverse()
    .map((line) => {
      const row = new Float64Array(n);
      for (const [j, value] of line.entries()) addScaled(row, jacobian[j]!, value);
      return row;
    });
  const weights = rows.map((row) => onDtg(row, range.first));
  const covariance = noiseCovariance(curve, weights);

  let perPoint = 0;
  for (let j = 0; j < SAMPLED; j++) {
    const k = range.first + Math.floor(((j + 0.5) * n) / SAMPLED);
    perPoint += noiseCovariance(curve, [onDtg([1], k)])[0]![0]! / SAMPLED;
  }
  let followed = 0;
  for (const [a, column] of jacobian.entries()) {
    for (const [b, other] of jacobian.entries()) followed += dot(column, other) * covariance[a]![b]!;
  }
  return {
    rows,
    weights,
    covariance,
    meanSquare: dot(residuals, residuals) / n,
    expected: Math.max(perPoint - followed / n, 0),
    residuals,
  };
}

/** Weights on the DTG from grid point `first` on. */
function onDtg(w: Iterable<number>, first: number): Functional {
  const { mass, readings } = functional();
  const list = [...w];
  return { mass, readings, dtg: { at: list.map((_, k) => first + k), w: list } };
}
