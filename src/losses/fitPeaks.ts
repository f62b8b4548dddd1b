import { pointsOf } from "../curve/pointsOf.ts";
import type { Curve } from "../curve/types.ts";
import { addScaled } from "../numerics/addScaled.ts";
import { dot } from "../numerics/dot.ts";
import { fitNonlinear } from "../numerics/fitNonlinear.ts";
import { runsTest } from "../numerics/runsTest.ts";
import type { FitFailed } from "../numerics/types.ts";
import { checkPeakSpec } from "./checkPeakSpec.ts";
import type { FittedPeak, PeakFit, PeakFitCheck, PeakFitSpec, PeakProblem, PeakRefusal } from "./fitTypes.ts";
import { mergedPeak } from "./mergedPeak.ts";
import { type PeakErrors, peakErrors } from "./peakErrors.ts";
import { peakProblem } from "./peakProblem.ts";
import { peakRange } from "./peakRange.ts";
import { peakTerms } from "./peakTerms.ts";

/** The search ends so near to the least squares, in standard errors: far below what an area is uncertain by. */
const TOLERANCE = 1e-4;

/**
 * Splits the DTG of a range into asymmetric peaks of fixed shape (Fraser–Suzuki, see `fraserSuzuki`): areas and small shifts
 * are fitted for every run, widths and asymmetries stand in the protocol with their uncertainty. It gives areas only where
 * they can be defended: an area that is not there, one that the assumed shapes leave open, two peaks that one describes as
 * well, or a DTG that is no sum of these peaks is a refusal with its reason, never a split.
 *
 * The standard uncertainty of an area holds the balance noise (with the correlation that grid and smoothing bring), what the
 * DTG departs from the fit, and the shapes; the shapes are by far the largest part of overlapping peaks. A wrong temperature
 * scale only shifts the peaks and costs no area.
 *
 * @param curve The DTG on its grid is fitted by least squares; the peaks go through the smoothing of the curve first.
 * @param spec The peaks, the range and when to refuse. Not changed.
 * @returns Areas in the unit of the run's mass, in the order of the specification, or why there are none.
 * @throws {RangeError} A specification that cannot work.
 *
 * @example
 * ```ts
 * import { readRun, toCurve } from "tg-hydrates";
 * const rows = ["T/°C\tm/mg"];
 * let mass = 20;
 * for (let T = 30; T <= 300; T += 0.5) {
 *   mass -= 0.0376 * Math.exp(-Math.LN2 * ((T - 120) / 12.5) ** 2);
 *   rows.push(`${T}\t${mass.toFixed(4)}`);
 * }
 * const curve = toCurve(readRun(new TextEncoder().encode(rows.join("\n"))), {
 *   grid: { step_C: 0.5 },
 *   smoothing: { width_C: 10, degree: 3 },
 * });
 * const fit = fitPeaks(curve, {
 *   peaks: [{ name: "water", position_C: [110, 130], width_C: 25 }],
 *   from_C: 50,
 *   to_C: 200,
 *   baseline: "linear",
 * });
 * if (fit.verdict !== "fitted" || Math.abs(fit.peaks[0]!.area - 2) > 0.01) throw new Error("2 mg leave about 120 °C");
 * ```
 */
export function fitPeaks(curve: Curve, spec: PeakFitSpec): PeakFit {
  checkPeakSpec(spec);
  const range = peakRange(curve, spec);
  if ("reason" in range) return { verdict: "refused", ...range, check: null };
  const problem = peakProblem(curve, spec, range);
  const { x, y, model, start, typical } = problem;
  const fit = fitNonlinear(model, { x, y }, { start, typical, tolerance: TOLERANCE });
  if (!fit.converged) {
    const message = undetermined(spec, fit);
    return { verdict: "refused", reason: "not-identifiable", message, check: null };
  }

  const { parameters, condition } = fit;
  const errors = peakErrors(curve, problem, parameters);
  const count = spec.peaks.length;
  const budgets = peakTerms(curve, problem, { errors, parameters });
  const peaks = spec.peaks.map(({ name }, peak): FittedPeak => {
    const terms = budgets[peak]!;
    return {
      name,
      area: parameters[peak]!,
      u: Math.hypot(...terms.map(({ effect }) => effect)),
      terms,
      weights: errors.weights[peak]!,
      position: parameters[count + peak]!,
      positionU: Math.sqrt(errors.covariance[count + peak]![count + peak]!),
    };
  });
  const check = { ...checkOf(curve, problem, { errors, parameters }), condition };
  const refusal = refusalOf(spec, peaks, check);
  return refusal ? { verdict: "refused", ...refusal, check } : { verdict: "fitted", peaks, check };
}

/** What a search that failed says, with the peaks in place of the numbers of parameters. */
function undetermined({ peaks }: PeakFitSpec, fit: FitFailed): string {
  const names = fit.undetermined.flatMap((j) => (j < 2 * peaks.length ? [peaks[j % peaks.length]!.name] : []));
  if (names.length === 0) return fit.message;
  return `The run does not determine area and position of ${[...new Set(names)].join(" and ")}.`;
}

/** Residuals against noise and against one peak fewer. */
function checkOf(
  curve: Curve,
  problem: PeakProblem,
  { errors, parameters }: { errors: PeakErrors; parameters: readonly number[] },
): Omit<PeakFitCheck, "condition"> {
  const { unit, spec, range, y } = problem;
  const { meanSquare, expected, residuals } = errors;
  const count = spec.peaks.length;
  const shapes = spec.peaks.map((_, i) => unit(i, parameters[count + i]!).map((value) => value * parameters[i]!));
  const sum = new Float64Array(y.length);
  for (const shape of shapes) addScaled(sum, shape, 1);
  const highest = sum.reduce((most, value) => Math.max(most, value), 0);
  const beyondNoise = (square: number) => Math.sqrt(Math.max(square - expected, 0));
  const size = (shape: Float64Array) => Math.sqrt(dot(shape, shape) / y.length);

  const { points } = pointsOf(curve.options, range.piece.gridEnd - range.piece.gridFirst);
  const inOrder = shapes.map((_, i) => i).sort((a, b) => parameters[count + a]! - parameters[count + b]!);
  const pairs = inOrder.slice(1).map((b, i): [number, number] => [inOrder[i]!, b]);
  return {
    residualDeviation: Math.sqrt(meanSquare),
    expectedDeviation: Math.sqrt(expected),
    misfitPct: (100 * Math.sqrt(errors.excess)) / highest,
    // Residuals a smoothing width apart share no reading.
    runs: runsTest(residuals.filter((_, k) => k % points === points >> 1)),
    merged: pairs.map((pair) => {
      const square = mergedPeak(problem, { parameters, pair });
      const smaller = Math.min(...pair.map((i) => size(shapes[i]!)));
      return {
        names: [spec.peaks[pair[0]]!.name, spec.peaks[pair[1]]!.name],
        unexplainedPct: (100 * beyondNoise(square)) / smaller,
        timesResidual: Math.sqrt(square / meanSquare),
      };
    }),
  };
}

/** The first reason against a fit; what makes the next reasons meaningless comes first. */
function refusalOf(
  spec: PeakFitSpec,
  peaks: FittedPeak[],
  check: PeakFitCheck,
): { reason: PeakRefusal; message: string } | null {
  const { area_u_pct = 20, misfit_pct = 2, merged_pct = 20, merged_times = 3 } = spec.limits ?? {};
  const say = (value: number) => value.toPrecision(3);
  for (const { name, area, u } of peaks) {
    if (area > 2 * u) continue;
    const message = `The area of ${name} is ${say(area)} ± ${say(u)}: beside the others it cannot be told from nothing.`;
    return { reason: "peak-absent", message };
  }
  for (const [i, { name, position }] of peaks.entries()) {
    const [low, high] = spec.peaks[i]!.position_C;
    if (position >= low && position <= high) continue;
    const message = `The peak ${name} would stand at ${position.toFixed(1)} °C, outside ${low}–${high} °C.`;
    return { reason: "position-outside", message };
  }
  for (const { names, unexplainedPct } of check.merged) {
    if (unexplainedPct >= merged_pct) continue;
    const message = `One peak in place of ${names.join(" and ")} describes the DTG about as well: it leaves ${say(unexplainedPct)} % of the smaller one (limit ${merged_pct} %).`;
    return { reason: "one-peak-suffices", message };
  }
  const departs = `The DTG departs from the sum of the peaks by ${say(check.misfitPct)} % of the highest one`;
  if (check.misfitPct > misfit_pct) {
    const message = `${departs} (limit ${misfit_pct} %): a peak is missing, or a shape is wrong.`;
    return { reason: "residual-structure", message };
  }
  for (const { names, timesResidual } of check.merged) {
    if (timesResidual >= merged_times) continue;
    const message = `${departs}; one peak in place of ${names.join(" and ")} leaves only ${say(timesResidual)} times as much (limit ${merged_times}): a peak is missing, or a shape is wrong.`;
    return { reason: "residual-structure", message };
  }
  for (const { name, area, u } of peaks) {
    const pct = (100 * u) / area;
    if (pct <= area_u_pct) continue;
    const message = `The area of ${name} is uncertain by ${say(pct)} % (limit ${area_u_pct} %): it is too small or too close to a neighbour for shapes known no better.`;
    return { reason: "area-uncertain", message };
  }
  return null;
}
