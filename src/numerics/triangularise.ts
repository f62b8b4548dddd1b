/**
 * Upper triangle R of a matrix given by its columns, by Householder's reflections (A. S. Householder, J ACM 5:339–342, 1958):
 * it has the singular values and the right singular vectors of the matrix, at a fraction of the size.
 *
 * @param columns p columns of n ≥ p values. Not changed.
 * @returns Rows of R; row k has zeros before column k.
 */
export function triangularise(columns: readonly Float64Array[]): Float64Array[] {
  const p = columns.length;
  const work = columns.map((column) => column.slice());
  for (let k = 0; k < p; k++) {
    const pivot = work[k]!;
    let length = 0;
    for (let i = k; i < pivot.length; i++) length += pivot[i]! * pivot[i]!;
    length = Math.sqrt(length);
    if (length === 0) continue;
    // The sign that does not cancel.
    if (pivot[k]! > 0) length = -length;
    const head = pivot[k]! - length;
    // v = (head, pivot below k); |v|² = −2·length·head.
    for (let j = k + 1; j < p; j++) {
      const column = work[j]!;
      let along = head * column[k]!;
      for (let i = k + 1; i < pivot.length; i++) along += pivot[i]! * column[i]!;
      const factor = along / (length * head);
      column[k]! += factor * head;
      for (let i = k + 1; i < pivot.length; i++) column[i]! += factor * pivot[i]!;
    }
    pivot[k] = length;
  }
  return work.map((_, k) => Float64Array.from(work, (column, j) => (j < k ? 0 : column[k]!)));
}
