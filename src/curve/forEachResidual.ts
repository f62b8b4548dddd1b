import type { Curve } from "./types.ts";

/**
 * Goes through the readings of a curve's pieces in order: `visit` gets the reading less the smoothed curve, unit of the
 * run's mass, the temperature of the reading, °C, and the grid point below it. Readings beyond the outermost grid points
 * have no smoothed curve on both sides and are passed over.
 */
export function forEachResidual(curve: Curve, visit: (residual: number, temperature: number, k: number) => void): void {
  const { run, mass, temperature, options } = curve;
  const perStep = 1 / options.grid.step_C;
  for (const { first, gridFirst, gridEnd, knots } of curve.pieces) {
    const low = temperature[gridFirst]!;
    const { knotOf } = knots;
    const last = gridEnd - gridFirst - 1;
    const readings = knotOf ? knotOf.length : knots.temperature.length;
    for (let i = 0; i < readings; i++) {
      const T = knots.temperature[knotOf ? knotOf[i]! : i]!;
      const position = (T - low) * perStep;
      if (position < 0) continue;
      const k = position | 0;
      if (k >= last) continue;
      const at = mass[gridFirst + k]!;
      const smooth = at + (position - k) * (mass[gridFirst + k + 1]! - at);
      visit(run.mass[first + i]! - smooth, T, gridFirst + k);
    }
  }
}
