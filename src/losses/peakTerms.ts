import type { Curve } from "../curve/types.ts";
import type { Term } from "../measured.ts";
import { dot } from "../numerics/dot.ts";
import type { PeakProblem } from "./fitTypes.ts";
import type { PeakErrors } from "./peakErrors.ts";

/**
 * The terms of uncertainty of the fitted areas, unit of the run's mass; one list per peak.
 *
 * `noise` of the balance. `width of …` and `asymmetry of …`: a finite change of each fixed shape by its standard
 * uncertainty; these are the same error in every run of a campaign. `misfit`: what the DTG departs from the fit beyond what
 * noise and such shapes explain, taken as a random error that holds over the width of the narrowest peak (its correlation
 * falls linearly to zero over it).
 */
export function peakTerms(
  curve: Curve,
  problem: PeakProblem,
  { errors, parameters }: { errors: PeakErrors; parameters: readonly number[] },
): Term[][] {
  const { peaks } = problem.spec;
  const changes = shapeChanges(problem, parameters);
  const explained = changes.reduce((sum, { change }) => {
    const left = errors.unexplained(change);
    return sum + dot(left, left) / left.length;
  }, 0);
  const misfit = Math.sqrt(Math.max(errors.excess - explained, 0));
  const base = Math.min(...peaks.map(({ width_C }) => width_C)) / curve.options.grid.step_C;
  return peaks.map(({ name }, i): Term[] => {
    const row = errors.rows[i]!;
    return [
      { cause: "noise", effect: Math.sqrt(errors.covariance[i]![i]!), key: `noise:${curve.run.source.name}` },
      { cause: "misfit", effect: misfit * Math.sqrt(underTriangle(row, base)), key: `misfit:${name}` },
      ...changes.map(({ cause, key, change }) => ({ cause, effect: dot(row, change), key })),
    ];
  });
}

/** What the standard uncertainty of each width and asymmetry changes of the DTG. */
function shapeChanges({ spec, shapeOf }: PeakProblem, parameters: readonly number[]) {
  const { peaks, width_u_pct = 5, asymmetry_u = 0.05 } = spec;
  return peaks.flatMap(({ name, width_C, asymmetry = 0 }, i) => {
    const area = parameters[i]!;
    const position = parameters[peaks.length + i]!;
    const shape = (width: number, skew: number) => shapeOf({ position, width, asymmetry: skew });
    const half = (up: Float64Array, down: Float64Array) => up.map((value, k) => (area * (value - down[k]!)) / 2);
    const w = (width_u_pct / 100) * width_C;
    const s = asymmetry_u;
    return [
      {
        cause: `width of ${name}`,
        key: `width:${name}`,
        change: half(shape(width_C + w, asymmetry), shape(width_C - w, asymmetry)),
      },
      {
        cause: `asymmetry of ${name}`,
        key: `asymmetry:${name}`,
        change: half(shape(width_C, asymmetry + s), shape(width_C, asymmetry - s)),
      },
    ];
  });
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
