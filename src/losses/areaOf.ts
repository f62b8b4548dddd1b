import { addTo, type Functional, functional } from "../curve/functional.ts";
import { addMassAt, pieceAt } from "../curve/massAt.ts";
import type { Curve } from "../curve/types.ts";
import type { Window } from "./types.ts";

/** Width of the anchor band where the window gives none, °C. */
export const ANCHOR_C = 10;

/**
 * What the rule `area` takes off the step: ½(s₁+s₂)(T₂−T₁), the area under a straight DTG baseline whose ordinates s
 * are slopes of straight lines fitted to the TG over the anchor band about each edge. The slope of a line over a band
 * is less than half as noisy as the DTG at the edge.
 *
 * @returns `baseline`: the functional to add to the step (it is negative where mass is lost at the edges), null where
 * less than half a band is there; `clipped`: an end of the heating or an isothermal cuts a band.
 */
export function areaOf(curve: Curve, window: Window): { baseline: Functional | null; clipped: boolean } {
  const { from_C: from, to_C: to, anchor_C: width = ANCHOR_C } = window;
  const start = slopeOf(curve, { T: from, width, side: "leaving" });
  const end = slopeOf(curve, { T: to, width, side: "entering" });
  if (start === null || end === null) return { baseline: null, clipped: true };
  // s = −slope, so −½(s₁+s₂)ΔT = +½(slope₁+slope₂)ΔT.
  const half = (to - from) / 2;
  const baseline = addTo(addTo(functional(), start.slope, half), end.slope, half);
  return { baseline, clipped: start.clipped || end.clipped };
}

/** Least-squares slope dm/dT over the band about T, unit of mass per °C. */
function slopeOf(
  curve: Curve,
  { T, width, side }: { T: number; width: number; side: "entering" | "leaving" },
): { slope: Functional; clipped: boolean } | null {
  const piece = pieceAt(curve, T, side);
  if (piece === null) return null;
  const step = curve.options.grid.step_C;
  const reach = Math.round(width / 2 / step);
  // Points T + j·step, so that the band is centred on the exact edge; those outside the piece are not there.
  const first = Math.max(-reach, Math.ceil((piece.from - T) / step - 1e-9));
  const last = Math.min(reach, Math.floor((piece.to - T) / step + 1e-9));
  const n = last - first + 1;
  // An isothermal is reached to within half a degree: one point less than half the band is still half.
  if (n < reach || n < 3) return null;
  const middle = (first + last) / 2;
  // Σ(j − j̄)² over n consecutive whole numbers, times the step: weights (j − j̄)/spread give a slope per °C.
  const spread = (n * (n * n - 1) * step) / 12;
  const slope = functional();
  for (let j = first; j <= last; j++) {
    addMassAt(slope, curve, { piece, T: T + j * step, factor: (j - middle) / spread });
  }
  return { slope, clipped: n < 2 * reach + 1 };
}
