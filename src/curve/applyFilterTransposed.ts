import type { FilterTable } from "./filterTable.ts";

/**
 * Transpose of {@link applyFilter} for one weight: adds to `weights` what a weight `w` on the filtered value at grid
 * point `k` puts on the values before filtering.
 *
 * @returns The first of the `table.points` values that got a weight.
 */
export function applyFilterTransposed(
  table: FilterTable,
  weight: { k: number; w: number },
  options: { weights: Float64Array; first: number; end: number },
): number {
  const { weights, first, end } = options;
  const { k, w } = weight;
  const { points, interior } = table;
  const half = (points - 1) / 2;
  let row = interior;
  let from = k - half;
  if (k < first + half) {
    row = table.start[k - first]!;
    from = first;
  } else if (k >= end - half) {
    row = table.end[k - (end - half)]!;
    from = end - points;
  }
  for (let j = 0; j < points; j++) weights[from + j]! += w * row[j]!;
  return from;
}
