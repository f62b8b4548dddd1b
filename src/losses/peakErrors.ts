import { type Functional, functional } from "../curve/functional.ts";
import { pointsOf } from "../curve/pointsOf.ts";
import type { Curve } from "../curve/types.ts";
import { addScaled } from "../numerics/addScaled.ts";
import { differentiate } from "../numerics/differentiate.ts";
import { dot } from "../numerics/dot.ts";
import { gaussNewton } from "../numerics/gaussNewton.ts";
import type { PeakProblem, PeakRange } from "./fitTypes.ts";
import { noiseCovariance } from "./noiseCovariance.ts";

/** The variance of the DTG by noise is taken at so many points of the range: between them it hardly changes. */
const SAMPLED = 12;
/** Residuals beyond the noise count from so many standard deviations of their mean square on. */
const SIGNIFICANT = 3;

/** What a solution is worth. */
export interface PeakErrors {
  /** Every parameter as weights on the DTG of the range: (JᵀJ)⁻¹Jᵀ. */
  rows: Float64Array[];
  /** The same as weights on the curve. */
  weights: Functional[];
  /** Covariance of the parameters by the balance noise. */
  covariance: number[][];
  /** What the fit leaves of a change of the DTG. */
  unexplained(change: Float64Array): Float64Array;
  /** DTG less fit, unit of the run's mass per °C. */
  residuals: Float64Array;
  /** Their mean square. */
  meanSquare: number;
  /** What noise alone would leave of it. */
  expected: number;
  /** What it exceeds that by, or zero where noise may well do so. */
  excess: number;
}

/**
 * Errors of a least-squares solution on a smoothed curve. Its points are not independent, so the covariance is the one
 * between the slices, (JᵀJ)⁻¹JᵀCJ(JᵀJ)⁻¹ (P. J. Huber, Proc Fifth Berkeley Symp Math Stat Prob 1:221–233, 1967), with C not
 * estimated but carried from the readings through grid and smoothing. What the fit itself follows of the noise, the trace of
 * J(JᵀJ)⁻¹JᵀC, is taken off what noise is expected to leave; how much that may vary follows from how many of the points
 * are as good as independent, n/Σρ² over the correlations of a point with all others.
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
  const expected = Math.max(perPoint - followed / n, 0);
  const meanSquare = dot(residuals, residuals) / n;
  const scatter = Math.sqrt(2 / (n / squaredCorrelations(curve, range)));
  return {
    rows,
    weights,
    covariance,
    unexplained: (change) => {
      const left = change.slice();
      for (const [j, column] of jacobian.entries()) addScaled(left, column, -dot(rows[j]!, change));
      return left;
    },
    residuals,
    meanSquare,
    expected,
    excess: meanSquare > expected * (1 + SIGNIFICANT * scatter) ? meanSquare - expected : 0,
  };
}

/** Σρ² over the correlations of a point in the middle of the range with all others. */
function squaredCorrelations(curve: Curve, { piece, first, end }: PeakRange): number {
  const { points } = pointsOf(curve.options, piece.gridEnd - piece.gridFirst);
  const middle = (first + end) >> 1;
  const count = Math.min(points, end - middle);
  const covariance = noiseCovariance(
    curve,
    Array.from({ length: count }, (_, lag) => onDtg([1], middle + lag)),
  );
  let sum = 1;
  for (let lag = 1; lag < count; lag++) {
    const variances = covariance[0]![0]! * covariance[lag]![lag]!;
    // Without noise there is nothing to be correlated.
    if (variances > 0) sum += (2 * covariance[0]![lag]! ** 2) / variances;
  }
  return sum;
}

/** Weights on the DTG from grid point `first` on. */
function onDtg(w: Iterable<number>, first: number): Functional {
  const { mass, readings } = functional();
  const list = [...w];
  return { mass, readings, dtg: { at: list.map((_, k) => first + k), w: list } };
}
