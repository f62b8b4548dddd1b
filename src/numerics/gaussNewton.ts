import { Matrix, SVD } from "ml-matrix";
import type { Linearised } from "./types.ts";

/** Share in the weakest combination from which a parameter is named. */
const NAMED = 0.1;

/**
 * Linearises a least-squares problem by the singular values of its Jacobian, columns scaled to length one (Marquardt's
 * scaling): neither the units of the parameters nor normal equations, whose condition is squared, cost digits.
 *
 * @param columns Jacobian of the model, one column per parameter.
 * @param residuals Data less model.
 */
export function gaussNewton(columns: readonly Float64Array[], residuals: Float64Array): Linearised {
  const n = residuals.length;
  const p = columns.length;
  const lengths = columns.map((column) => Math.sqrt(column.reduce((sum, value) => sum + value * value, 0)));
  const scaled = new Matrix(n, p);
  for (let j = 0; j < p; j++) {
    const column = columns[j]!;
    const length = lengths[j]!;
    if (length > 0) for (let i = 0; i < n; i++) scaled.set(i, j, column[i]! / length);
  }
  const { leftSingularVectors: U, rightSingularVectors: V, diagonal } = new SVD(scaled);
  const onto = diagonal.map((_, k) => residuals.reduce((sum, r, i) => sum + U.get(i, k) * r, 0));
  const unscale = (parts: number[]) =>
    lengths.map((length, j) =>
      quotient(
        parts.reduce((sum, part, k) => sum + V.get(j, k) * part, 0),
        length,
      ),
    );

  const along = onto.reduce((sum, value) => sum + value * value, 0);
  const across = Math.max(residuals.reduce((sum, r) => sum + r * r, 0) - along, 0);
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
