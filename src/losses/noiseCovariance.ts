import type { Functional } from "../curve/functional.ts";
import { pullBack } from "../curve/pullBack.ts";
import type { Curve } from "../curve/types.ts";
import { dot } from "../numerics/dot.ts";

/**
 * Covariance that the balance noise gives to functionals of one curve: σ²·wᵀΓv with the weights pulled back to the
 * readings and Γ the correlation lagOne^|i−j| of neighbouring readings (JCGM 100:2008, 5.2.2). What grid and smoothing
 * correlate is in it; the noise is never taken below that of the print resolution d, d/√12.
 *
 * @returns Unit of the functionals, squared; one row and one column per functional.
 */
export function noiseCovariance(curve: Curve, functionals: readonly Functional[]): number[][] {
  const { lagOne } = curve.noise;
  const sd = Math.max(curve.noise.sd, curve.run.massResolution / Math.sqrt(12));
  const stretches = functionals.map((functional) => pullBack(curve, functional));
  const all = stretches.flat();
  const first = all.reduce((low, stretch) => Math.min(low, stretch.first), curve.run.mass.length);
  const end = all.reduce((high, { first, weights }) => Math.max(high, first + weights.length), first);
  const weights = stretches.map((list) => {
    const row = new Float64Array(end - first);
    for (const stretch of list) row.set(stretch.weights, stretch.first - first);
    return row;
  });
  const spread = weights.map((row) => correlated(row, lagOne));
  return weights.map((row) => spread.map((other) => dot(row, other) * sd * sd));
}

/** Γw, by one pass in each direction. */
function correlated(weights: Float64Array, lagOne: number): Float64Array {
  if (lagOne === 0) return weights;
  const out = weights.slice();
  const last = weights.length - 1;
  let [before, after] = [0, 0];
  for (let i = 0; i <= last; i++) {
    out[i]! += before;
    before = lagOne * (before + weights[i]!);
    out[last - i]! += after;
    after = lagOne * (after + weights[last - i]!);
  }
  return out;
}
