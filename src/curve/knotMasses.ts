import type { Piece } from "./types.ts";

/** Mass at every knot of a piece: the mean of the readings that were pooled into it. */
export function knotMasses(mass: Float64Array, piece: Piece): Float64Array {
  const { knotOf, count, temperature } = piece.knots;
  if (!knotOf || !count) return mass.subarray(piece.first, piece.end);
  const out = new Float64Array(temperature.length);
  for (let i = 0; i < knotOf.length; i++) out[knotOf[i]!]! += mass[piece.first + i]!;
  for (let knot = 0; knot < out.length; knot++) out[knot]! /= count[knot]!;
  return out;
}
