import type { FilterTable } from "./filterTable.ts";

/**
 * Transpose of {@link applyFilter} for one weight: adds to `weights` what a weight `w` on the filtered value at grid
 * point `k` puts on the values before filtering.
 */
export function applyFilterTransposed(
  table: FilterTable,
  weight: { k: number; w: number },
  options: { weights: Float64Array; first: number; end: number },
): void {
  const { weights, first, end } = options;
  const { k, w } = weight;
  const { points, interior } = table;
  const half = (points - 1) / 2;
  const [row, from] =
    k < first + half
      ? [table.start[k - first]!, first]
      : k >= end - half
        ? [table.end[k - (end - half)]!, end - points]
        : [interior, k - half];
  for (let j = 0; j < points; j++) weights[from + j]! += w * row[j]!;
}
