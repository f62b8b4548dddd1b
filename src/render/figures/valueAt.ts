import { bisectLeft } from "d3-array";

/** The value at x between points with ascending x, on the straight line between its neighbours; null outside. */
export function valueAt(xs: readonly number[], ys: readonly number[], x: number): number | null {
  if (xs.length === 0 || x < xs[0]! || x > xs.at(-1)!) return null;
  const i = bisectLeft(xs, x);
  if (xs[i] === x || i === 0) return ys[i]!;
  const share = (x - xs[i - 1]!) / (xs[i]! - xs[i - 1]!);
  return ys[i - 1]! + share * (ys[i]! - ys[i - 1]!);
}
