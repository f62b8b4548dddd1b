import { fitNonlinear } from "../numerics/fitNonlinear.ts";
import type { FitModel } from "../numerics/types.ts";
import type { PeakProblem } from "./fitTypes.ts";

/** A search for one peak in place of two need not be exact: it is a comparison. */
const STEPS = 50;
const TOLERANCE = 1e-2;

/**
 * Fits one peak of free area, position, width and asymmetry in place of two neighbours: what two peaks describe must not be
 * one peak of a shape that the protocol did not foresee.
 *
 * @param problem The fit of all peaks.
 * @param options `parameters`: its solution; `pair`: the indices of the two.
 * @returns Mean square of DTG less fit, (unit of mass per °C)².
 */
export function mergedPeak(
  problem: PeakProblem,
  options: { parameters: readonly number[]; pair: readonly [number, number] },
): number {
  const { x, y, model, shapeOf, unit, typical, spec, temperature } = problem;
  const { parameters, pair } = options;
  const count = spec.peaks.length;
  const [a, b] = pair;
  const replaced = new Set([a, b, count + a, count + b]);
  const kept = parameters.flatMap((_, j) => (replaced.has(j) ? [] : [j]));

  /** All parameters, the two peaks without area. */
  const others = (merged: readonly number[]) => {
    const all = [...parameters];
    all[a] = 0;
    all[b] = 0;
    kept.forEach((j, i) => {
      all[j] = merged[4 + i]!;
    });
    return all;
  };
  const mergedModel: FitModel = (merged) => {
    const [area = 0, position = 0, width = 0, asymmetry = 0] = merged;
    if (!(width > 0 && Math.abs(asymmetry) < 3)) return () => Number.NaN;
    const rest = model(others(merged));
    const peak = shapeOf({ position, width, asymmetry });
    return (k) => rest(k) + area * peak[k]!;
  };

  // Begin with the summit, the half widths and the area of the sum of the two.
  const two = unit(b, parameters[count + b]!);
  const sum = unit(a, parameters[count + a]!).map((value, k) => parameters[a]! * value + parameters[b]! * two[k]!);
  const top = sum.reduce((best, value, k) => (value > sum[best]! ? k : best), 0);
  const high = (k: number) => k > 0 && k < sum.length - 1 && sum[k]! > sum[top]! / 2;
  let [left, right] = [top, top];
  while (high(left)) left--;
  while (high(right)) right++;
  const [colder, hotter] = [temperature[top]! - temperature[left]!, temperature[right]! - temperature[top]!];
  const start = [
    parameters[a]! + parameters[b]!,
    temperature[top]!,
    colder + hotter,
    // A peak of two summits is no start: no more skew than a width to one side of a third.
    Math.min(Math.max(Math.log(hotter / colder), -1), 1) || 0,
    ...kept.map((j) => parameters[j]!),
  ];
  const sizes = [typical[a]!, typical[count + a]!, typical[count + a]!, 1, ...kept.map((j) => typical[j]!)];
  const fit = fitNonlinear(mergedModel, { x, y }, { start, typical: sizes, iterations: STEPS, tolerance: TOLERANCE });
  return fit.sumOfSquares / y.length;
}
