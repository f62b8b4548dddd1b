import { addWeight, type Functional, functional } from "./functional.ts";
import type { Curve, Piece } from "./types.ts";

/** An edge this close to an isothermal stands at it, °C: programme and sample temperature differ by about that. */
const AT_ISOTHERMAL = 2;
/** The heating is continued into an isothermal by no more than the width within which it counts as reached, °C. */
const REACH = 0.5;

/**
 * m(T) as weights on the smoothed curve, by the cubic through the four nearest grid points; up to the end of a piece
 * this is the polynomial of the end fit itself.
 *
 * @param side `leaving`: where T stands at an isothermal take the mass on leaving it (lower edge of a window);
 * `entering`: the mass on entering (upper edge).
 * @returns null where the run does not reach T.
 */
export function massAt(curve: Curve, T: number, side: "entering" | "leaving"): Functional | null {
  const piece = pieceAt(curve, T, side);
  if (piece === null) return null;
  const result = functional();
  addMassAt(result, curve, { piece, T: Math.min(Math.max(T, piece.from - REACH), piece.to + REACH), factor: 1 });
  return result;
}

/** The piece in which T is looked up; null where the run does not reach T. */
export function pieceAt(curve: Curve, T: number, side: "entering" | "leaving"): Piece | null {
  const { pieces } = curve;
  const low = pieces[0]!.from;
  const high = pieces.at(-1)!.to;
  if (T < low - 1e-6 || T > high + 1e-6) return null;
  for (let i = 1; i < pieces.length; i++) {
    const before = pieces[i - 1]!;
    const after = pieces[i]!;
    const stands =
      T > Math.min(before.to, after.from) - AT_ISOTHERMAL && T < Math.max(before.to, after.from) + AT_ISOTHERMAL;
    if (stands) return side === "leaving" ? after : before;
    if (T <= before.to) return before;
  }
  return pieces.at(-1)!;
}

/** Adds `factor`·m(T) to a functional. */
export function addMassAt(
  target: Functional,
  curve: Curve,
  { piece, T, factor }: { piece: Piece; T: number; factor: number },
): void {
  const available = piece.gridEnd - piece.gridFirst;
  const points = Math.min(4, available);
  const position = T / curve.options.grid.step_C - piece.firstPoint;
  const whole = Math.round(position);
  // On a grid point no neighbours are needed.
  if (Math.abs(position - whole) < 1e-9 && whole >= 0 && whole < available) {
    const k = piece.gridFirst + whole;
    addWeight(target.mass, k, factor);
    return;
  }
  const start = Math.min(Math.max(Math.floor(position) - 1, 0), available - points);
  for (let a = 0; a < points; a++) {
    let weight = factor;
    for (let b = 0; b < points; b++) if (b !== a) weight *= (position - start - b) / (a - b);
    const k = piece.gridFirst + start + a;
    addWeight(target.mass, k, weight);
  }
}
