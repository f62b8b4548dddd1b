import { dot } from "../numerics/dot.ts";
import { addWeight, functional } from "./functional.ts";
import { addMassAt } from "./massAt.ts";
import { pullBack, type ReadingWeights } from "./pullBack.ts";
import type { Curve } from "./types.ts";

/** So many neighbouring readings stand for all. */
const SAMPLE = 6;

/**
 * What the smoothing of a curve leaves of noise in its residuals: variance (that of one reading is 1) and lag-one
 * correlation, as functions of the noise's own lag-one correlation. Computed with the very weights of the curve at some
 * readings in the middle of its longest piece.
 */
export function residualsOfNoise(curve: Curve): (lagOne: number) => { variance: number; ratio: number } {
  const rows = residualWeights(curve);
  return (lagOne) => {
    let [variance, covariance] = [0, 0];
    for (let i = 0; i < rows.length; i++) {
      const spread = correlate(rows[i]!, lagOne);
      variance += dot(rows[i]!, spread) / rows.length;
      if (i > 0) covariance += dot(rows[i - 1]!, spread) / (rows.length - 1);
    }
    return { variance, ratio: covariance / variance };
  };
}

/** Weights that some neighbouring readings' residuals have on the readings around them. */
function residualWeights(curve: Curve): Float64Array[] {
  const piece = curve.pieces.reduce((a, b) => (b.end - b.first > a.end - a.first ? b : a));
  const { knots, first, end } = piece;
  const from = Math.max(0, ((end - first) >> 1) - (SAMPLE >> 1));
  const rows: ReadingWeights[] = [];
  for (let i = from; i < Math.min(from + SAMPLE, end - first); i++) {
    const T = knots.temperature[knots.knotOf ? knots.knotOf[i]! : i]!;
    const residual = functional();
    addMassAt(residual, curve, { piece, T, factor: -1 });
    addWeight(residual.readings, first + i, 1);
    rows.push(pullBack(curve, residual)[0]!);
  }
  const low = rows.reduce((least, row) => Math.min(least, row.first), Number.POSITIVE_INFINITY);
  const high = rows.reduce((most, row) => Math.max(most, row.first + row.weights.length), 0);
  return rows.map((row) => {
    const weights = new Float64Array(high - low);
    weights.set(row.weights, row.first - low);
    return weights;
  });
}

/** Γw for noise of unit variance and correlation rho^|i−j|. */
function correlate(weights: Float64Array, rho: number): Float64Array {
  const out = weights.slice();
  let [before, after] = [0, 0];
  const last = weights.length - 1;
  for (let i = 0; i <= last; i++) {
    out[i]! += before;
    before = rho * (before + weights[i]!);
    out[last - i]! += after;
    after = rho * (after + weights[last - i]!);
  }
  return out;
}
