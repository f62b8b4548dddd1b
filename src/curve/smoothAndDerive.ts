import { applyFilterEnds } from "./applyFilter.ts";
import type { FilterTable } from "./filterTable.ts";

/**
 * Smoothed values and their derivative in one sweep over y[first..end): what {@link applyFilter} gives with either table. The
 * kernel of the smoothing is symmetric and that of the derivative antisymmetric, so each pair of readings about a point is
 * loaded once, its sum counted in the one and its difference in the other.
 *
 * @param tables `smooth` and `derive`: filters of one length, derivatives 0 and 1.
 * @param out `sign`: factor on the derivative.
 * @throws RangeError if the stretch is shorter than the kernel.
 */
export function smoothAndDerive(
  { smooth, derive }: { smooth: FilterTable; derive: FilterTable },
  y: Float64Array,
  out: { value: Float64Array; derivative: Float64Array; sign: 1 | -1; first: number; end: number },
): void {
  const { value, derivative, sign, first, end } = out;
  applyFilterEnds(smooth, y, { out: value, first, end });
  applyFilterEnds(derive, y, { out: derivative, first, end });
  const half = (smooth.points - 1) / 2;
  for (let i = 0; i < half; i++) {
    derivative[first + i]! *= sign;
    derivative[end - half + i]! *= sign;
  }
  const even = smooth.interior.subarray(half);
  const odd = derive.interior.subarray(half);
  const middle = even[0]!;
  for (let k = first + half; k < end - half; k++) {
    let sum = middle * y[k]!;
    let slope = 0;
    for (let j = 1; j <= half; j++) {
      const after = y[k + j]!;
      const before = y[k - j]!;
      sum += even[j]! * (after + before);
      slope += odd[j]! * (after - before);
    }
    value[k] = sum;
    derivative[k] = sign * slope;
  }
}
