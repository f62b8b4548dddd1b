import { addTo, type Functional, functional } from "../curve/functional.ts";
import { addMassAt, pieceAt } from "../curve/massAt.ts";
import type { Curve } from "../curve/types.ts";
import type { Window } from "./types.ts";

/**
 * The rule `tangent`: vertical distance, at the DTG peak, between the straight lines fitted to the TG before and after
 * the step. Exact for any shape of step where the background has one slope on both sides; otherwise it depends on where
 * the vertical stands, so the temperature of the peak is part of the result.
 *
 * @param peak Temperature of the DTG peak, °C.
 * @returns null where a fitting range is not covered.
 */
export function tangentOf(curve: Curve, ranges: NonNullable<Window["tangent"]>, peak: number): Functional | null {
  const before = lineAt(curve, ranges.before_C, peak);
  const after = lineAt(curve, ranges.after_C, peak);
  return before && after ? addTo(before, after, -1) : null;
}

/** Value at `peak` of the least-squares line through the curve over a range. */
function lineAt(curve: Curve, [low, high]: [number, number], peak: number): Functional | null {
  const piece = pieceAt(curve, low, "leaving");
  if (piece === null || high > piece.to + 1e-6) return null;
  const points = Math.max(3, Math.round((high - low) / curve.options.grid.step_C) + 1);
  const step = (high - low) / (points - 1);
  const middle = (low + high) / 2;
  const spread = (points * (points * points - 1) * step * step) / 12;
  const line = functional();
  for (let j = 0; j < points; j++) {
    const T = low + j * step;
    const factor = 1 / points + ((T - middle) * (peak - middle)) / spread;
    addMassAt(line, curve, { piece, T, factor });
  }
  return line;
}
