import { pieceAt } from "../curve/massAt.ts";
import type { Curve } from "../curve/types.ts";
import type { PeakFitSpec, PeakRange, PeakRefusal } from "./fitTypes.ts";

/** The grid points that a peak fit takes of a curve, or why the curve has none for it. */
export function peakRange(
  curve: Curve,
  { from_C, to_C }: Pick<PeakFitSpec, "from_C" | "to_C">,
): PeakRange | { reason: PeakRefusal; message: string } {
  const piece = pieceAt(curve, from_C, "leaving");
  const last = pieceAt(curve, to_C, "entering");
  if (piece === null || last === null) {
    const [low, high] = [curve.pieces[0]!.from.toFixed(1), curve.pieces.at(-1)!.to.toFixed(1)];
    const message = `The fit needs ${from_C}–${to_C} °C; the heating goes from ${low} to ${high} °C.`;
    return { reason: "window-truncated", message };
  }
  if (piece !== last) {
    const message = `An isothermal stands between ${from_C} and ${to_C} °C: the DTG is not one curve.`;
    return { reason: "isothermal-in-window", message };
  }
  let first = piece.gridFirst;
  while (first < piece.gridEnd && curve.temperature[first]! < from_C - 1e-9) first++;
  let end = first;
  while (end < piece.gridEnd && curve.temperature[end]! <= to_C + 1e-9) end++;
  return { piece, first, end };
}
