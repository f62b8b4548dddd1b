/** Correlations as products of one number per comparison. */
export interface ProductCorrelation {
  /** −0.9999…0.9999, one per comparison. */
  lambda: number[];
  /** Largest distance of a product from the correlation it stands for; zero but for rounding where the form fits. */
  gap: number;
}

/**
 * The numbers λ whose products come nearest to given correlations, for {@link dunnettTail} where differences have more in common
 * than one reference: a calibration, a mix, a blank. One common factor by least squares on what stands off the diagonal
 * (H. H. Harman and W. H. Jones, Psychometrika 31:351–368, 1966), solved one λ at a time.
 *
 * Two comparisons always fit, comparisons with one reference do too. With a `gap` above some 0.05 the family is not of this form,
 * and Holm's adjustment, which needs no correlations, is the one to use.
 *
 * @param matrix Correlations, symmetric with ones on the diagonal.
 * @throws {RangeError} A matrix that is not square, not symmetric, without ones on the diagonal or with a number outside −1…1.
 * @example
 * ```ts
 * const { lambda, gap } = productCorrelation([[1, 0.4, 0.32], [0.4, 1, 0.2], [0.32, 0.2, 1]]);
 * if (gap > 1e-9 || Math.abs(lambda[0]! - 0.8) > 1e-6) throw new Error("0.8, 0.5 and 0.4");
 * ```
 */
export function productCorrelation(matrix: readonly (readonly number[])[]): ProductCorrelation {
  const k = matrix.length;
  if (k === 0) throw new RangeError("Give at least one comparison");
  for (const [i, row] of matrix.entries()) {
    if (row.length !== k) throw new RangeError(`Give a square matrix: row ${i + 1} of ${k} has ${row.length} numbers`);
    for (const [j, value] of row.entries()) {
      const fits =
        i === j ? Math.abs(value - 1) < 1e-9 : Math.abs(value) <= 1 && Math.abs(value - matrix[j]![i]!) < 1e-9;
      if (!fits) throw new RangeError(`Row ${i + 1}, column ${j + 1} of the correlations cannot be ${value}`);
    }
  }
  const strongest = matrix.map((row, i) => Math.max(...row.map((value, j) => (i === j ? 0 : Math.abs(value)))));
  // Signs as in the row of the comparison that has most in common with the others.
  const pivot = strongest.indexOf(Math.max(...strongest));
  const lambda = strongest.map((value, i) => Math.sqrt(value) * (matrix[pivot]![i]! < 0 ? -1 : 1));
  for (let round = 0; round < 2000; round++) {
    let moved = 0;
    for (let i = 0; i < k; i++) {
      let top = 0;
      let bottom = 0;
      for (let j = 0; j < k; j++) {
        if (j === i) continue;
        top += matrix[i]![j]! * lambda[j]!;
        bottom += lambda[j]! ** 2;
      }
      const next = bottom === 0 ? 0 : Math.max(-0.9999, Math.min(0.9999, top / bottom));
      moved = Math.max(moved, Math.abs(next - lambda[i]!));
      lambda[i] = next;
    }
    if (moved < 1e-13) break;
  }
  const gaps = matrix.flatMap((row, i) => row.slice(0, i).map((value, j) => Math.abs(value - lambda[i]! * lambda[j]!)));
  return { lambda, gap: Math.max(0, ...gaps) };
}
