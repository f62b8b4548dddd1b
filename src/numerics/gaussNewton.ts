import { Matrix, SVD } from "ml-matrix";
import { triangularise } from "./triangularise.ts";
import type { Linearised } from "./types.ts";

/** Share in the weakest combination from which a parameter is named. */
const NAMED = 0.1;

/**
 * Linearises a least-squares problem by the singular values of its Jacobian, columns scaled to length one (Marquardt's
 * scaling): neither the units of the parameters nor normal equations, whose condition is squared, cost digits. The
 * decomposition is that of the triangle, with the residuals as one more column.
 *
 * @param columns Jacobian of the model, one column per parameter.
 * @param residuals Data less model.
 */
export function gaussNewton(columns: readonly Float64Array[], residuals: Float64Array): Linearised {
  const p = columns.length;
  const n = residuals.length;
  const lengths = columns.map((column) => Math.sqrt(column.reduce((sum, value) => sum + value * value, 0)));
  const scaled = columns.map((column, j) => column.map((value) => quotient(value, lengths[j]!)));
  const triangle = triangularise([...scaled, residuals]);
  const square = new Matrix(triangle.slice(0, p).map((row) => [...row.subarray(0, p)]));
  const { leftSingularVectors: U, rightSingularVectors: V, diagonal } = new SVD(square);
  // Residuals along the singular directions, and what lies across the tangent plane.
  const onto = diagonal.map((_, k) => triangle.slice(0, p).reduce((sum, row, i) => sum + U.get(i, k) * row[p]!, 0));
  const across = triangle[p]![p]! ** 2;
  const along = onto.reduce((sum, value) => sum + value * value, 0);
  const unscale = (parts: number[]) =>
    lengths.map((length, j) =>
      quotient(
        parts.reduce((sum, part, k) => sum + V.get(j, k) * part, 0),
        length,
      ),
    );

  const smallest = diagonal.at(-1)!;
  const dead = lengths.flatMap((length, j) => (length > 0 ? [] : [j]));
  const faint = lengths.flatMap((_, j) => (Math.abs(V.get(j, p - 1)) > NAMED ? [j] : []));
  return {
    step: (damping) => unscale(onto.map((value, k) => quotient(diagonal[k]! * value, diagonal[k]! ** 2 + damping))),
    promise: (damping) =>
      onto.reduce((sum, value, k) => {
        const kept = quotient(damping, diagonal[k]! ** 2 + damping);
        return sum + value * value * (1 - kept * kept);
      }, 0),
    inverse: () => lengths.map((length, a) => unscale(diagonal.map((s, k) => quotient(V.get(a, k), s * s * length)))),
    condition: dead.length > 0 || smallest === 0 ? Number.POSITIVE_INFINITY : diagonal[0]! / smallest,
    weakest: dead.length > 0 ? dead : faint,
    offset: Math.sqrt(along / p) / Math.sqrt(across / (n - p)) || 0,
  };
}

function quotient(top: number, bottom: number): number {
  return bottom === 0 ? 0 : top / bottom;
}
