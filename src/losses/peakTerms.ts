import type { Curve } from "../curve/types.ts";
import type { Term } from "../measured.ts";
import { dot } from "../numerics/dot.ts";
import type { PeakProblem } from "./fitTypes.ts";
import type { PeakErrors } from "./peakErrors.ts";

/**
 * The terms of uncertainty of one fitted area, unit of the run's mass.
 *
 * `noise` of the balance. `misfit`: what the DTG departs from the fit beyond noise is taken as a random error that holds
 * over the width of the narrowest peak (correlation falling linearly to zero over it). `width of …` and `asymmetry of …`: a
 * finite change of each fixed shape by its standard uncertainty; these are the same error in every run of a campaign.
 *
 * @param options `peak`: index of the peak; `parameters`: the solution.
 */
export function peakTerms(
  curve: Curve,
  problem: PeakProblem,
  options: { errors: PeakErrors; parameters: readonly number[]; peak: number },
): Term[] {
  const { errors, parameters, peak } = options;
  const { spec, shapeOf } = problem;
  const { peaks, width_u_pct = 5, asymmetry_u = 0.05 } = spec;
  const row = errors.rows[peak]!;
  const misfit = Math.sqrt(Math.max(errors.meanSquare - errors.expected, 0));
  const base = Math.min(...peaks.map(({ width_C }) => width_C)) / curve.options.grid.step_C;
  const terms: Term[] = [
    { cause: "noise", effect: Math.sqrt(errors.covariance[peak]![peak]!), key: `noise:${curve.run.source.name}` },
    { cause: "misfit", effect: misfit * Math.sqrt(underTriangle(row, base)), key: `misfit:${peaks[peak]!.name}` },
  ];
  peaks.forEach(({ name, width_C, asymmetry = 0 }, j) => {
    const area = parameters[j]!;
    const position = parameters[peaks.length + j]!;
    const onArea = (width: number, skew: number) => area * dot(row, shapeOf({ position, width, asymmetry: skew }));
    const dw = (width_u_pct / 100) * width_C;
    const byWidth = (onArea(width_C + dw, asymmetry) - onArea(width_C - dw, asymmetry)) / 2;
    const bySkew = (onArea(width_C, asymmetry + asymmetry_u) - onArea(width_C, asymmetry - asymmetry_u)) / 2;
    terms.push({ cause: `width of ${name}`, effect: byWidth, key: `width:${name}` });
    terms.push({ cause: `asymmetry of ${name}`, effect: bySkew, key: `asymmetry:${name}` });
  });
  return terms;
}

/** Σₖₗ wₖwₗ·max(0, 1 − |k − l|/base). */
function underTriangle(weights: Float64Array, base: number): number {
  let sum = 0;
  for (let k = 0; k < weights.length; k++) {
    const end = Math.min(weights.length, k + Math.ceil(base));
    let beyond = 0;
    for (let l = k + 1; l < end; l++) beyond += weights[l]! * (1 - (l - k) / base);
    sum += weights[k]! * (weights[k]! + 2 * beyond);
  }
  return Math.max(sum, 0);
}
