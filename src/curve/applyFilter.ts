import type { FilterTable } from "./filterTable.ts";

/**
 * Filters y[first..end) into out[first..end), ends included; equal to `scipy.signal.savgol_filter(mode="interp")`.
 *
 * @throws RangeError if the stretch is shorter than the kernel.
 */
export function applyFilter(
  table: FilterTable,
  y: Float64Array,
  options: { out: Float64Array; first: number; end: number },
): void {
  const { out, first, end } = options;
  const { points, interior } = table;
  const half = (points - 1) / 2;
  applyFilterEnds(table, y, options);
  // Two accumulators: the sum is the same for all engines and twice as fast as one.
  for (let k = first; k < end - points + 1; k++) {
    let even = 0;
    let odd = 0;
    for (let j = 0; j < points - 1; j += 2) {
      even += interior[j]! * y[k + j]!;
      odd += interior[j + 1]! * y[k + j + 1]!;
    }
    out[k + half] = even + odd + interior[points - 1]! * y[k + points - 1]!;
  }
}

/** The first and the last half kernel of {@link applyFilter}, by the polynomials of the ends. */
export function applyFilterEnds(
  table: FilterTable,
  y: Float64Array,
  { out, first, end }: { out: Float64Array; first: number; end: number },
): void {
  const { points } = table;
  const half = (points - 1) / 2;
  if (end - first < points)
    throw new RangeError(`Smoothing needs at least ${points} grid points, there are ${end - first}`);
  for (let i = 0; i < half; i++) {
    out[first + i] = dot(table.start[i]!, y, first);
    out[end - half + i] = dot(table.end[i]!, y, end - points);
  }
}

function dot(row: Float64Array, y: Float64Array, from: number): number {
  let sum = 0;
  for (let j = 0; j < row.length; j++) sum += row[j]! * y[from + j]!;
  return sum;
}
