import type { CurveOptions } from "./types.ts";

/**
 * Refuses a grid or a smoothing that cannot work.
 *
 * @throws RangeError that names the field and its value.
 */
export function checkCurveOptions({ grid, smoothing }: CurveOptions): void {
  if (!(grid.step_C >= 0.05 && grid.step_C <= 5)) {
    throw new RangeError(`grid.step_C must lie between 0.05 and 5 °C, not ${grid.step_C}`);
  }
  if (!Number.isInteger(smoothing.degree) || smoothing.degree < 1 || smoothing.degree > 5) {
    throw new RangeError(`smoothing.degree must be a whole number from 1 to 5, not ${smoothing.degree}`);
  }
  const points = 2 * Math.round(smoothing.width_C / grid.step_C / 2) + 1;
  if (!(points > smoothing.degree + 1) || points > 401) {
    const say = `smoothing.width_C must span more than ${smoothing.degree + 1} and at most 401 grid points`;
    throw new RangeError(`${say}: ${smoothing.width_C} °C are ${points} points of ${grid.step_C} °C`);
  }
}
