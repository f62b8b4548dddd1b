import type { Curve } from "../curve/types.ts";
import { addScaled } from "../numerics/addScaled.ts";
import { gaussNewton } from "../numerics/gaussNewton.ts";
import type { PeakFitSpec, PeakProblem, PeakRange } from "./fitTypes.ts";
import { peakModel } from "./peakModel.ts";

/**
 * Sets up the least-squares problem of a peak fit: DTG = Σ area·peak(position) + height + slope·T. It starts at the middle
 * of every position's bounds, or at the DTG maximum inside them where there is one, with the areas and the baseline that fit
 * best there.
 *
 * @throws {RangeError} No more grid points than parameters.
 */
export function peakProblem(curve: Curve, spec: PeakFitSpec, range: PeakRange): PeakProblem {
  const { peaks, baseline } = spec;
  const { first, end } = range;
  const n = end - first;
  const count = peaks.length;
  const y = curve.dtg.slice(first, end);
  const x = y.map((_, k) => k);
  const shapeOf = peakModel(curve, range);
  const unit = (i: number, position: number) => {
    const { width_C: width, asymmetry = 0 } = peaks[i]!;
    return shapeOf({ position, width, asymmetry });
  };
  // Height and slope in units of half the range: columns of like size.
  const lines = baseline === "none" ? [] : [x.map(() => 1), x.map((k) => (2 * k) / (n - 1) - 1)];
  const model = (parameters: readonly number[]) => {
    const sum = new Float64Array(n);
    for (let i = 0; i < count; i++) addScaled(sum, unit(i, parameters[count + i]!), parameters[i]!);
    for (const [i, line] of lines.entries()) addScaled(sum, line, parameters[2 * count + i]!);
    return (k: number) => sum[k]!;
  };

  const parameters = 2 * count + lines.length;
  if (n <= parameters) {
    throw new RangeError(`Peak fit: ${parameters} parameters need more than the ${n} grid points of the range`);
  }
  const positions = peaks.map(({ position_C }) => startOf(curve, position_C, range));
  const amounts = gaussNewton([...positions.map((position, i) => unit(i, position)), ...lines], y).step(0);
  const highest = y.reduce((most, value) => Math.max(most, Math.abs(value)), 0) || 1;
  const widths = peaks.map(({ width_C }) => width_C);
  return {
    spec,
    range,
    x,
    temperature: curve.temperature.slice(first, end),
    y,
    shapeOf,
    unit,
    model,
    start: [...amounts.slice(0, count), ...positions, ...amounts.slice(count)],
    typical: [...widths.map((width) => width * highest), ...widths, ...lines.map(() => highest)],
  };
}

/** The DTG maximum between two temperatures if it is a summit, otherwise the middle, °C. */
function startOf({ temperature, dtg }: Curve, [low, high]: [number, number], { first, end }: PeakRange): number {
  let top = -1;
  for (let k = first; k < end; k++) {
    if (temperature[k]! >= low && temperature[k]! <= high && (top < 0 || dtg[k]! > dtg[top]!)) top = k;
  }
  const summit = top > first && top < end - 1 && dtg[top]! > dtg[top - 1]! && dtg[top]! > dtg[top + 1]!;
  return summit ? temperature[top]! : (low + high) / 2;
}
