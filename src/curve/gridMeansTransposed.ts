/** Some neighbouring values of an array, `from` … `to` (exclusive). */
export interface Slice {
  values: Float64Array;
  from: number;
  to: number;
}

/** Lent from one call to the next. */
let scratch = new Float64Array(0);

/**
 * Transpose of {@link gridMeans}: what weights on the grid means put on the masses at the knots.
 *
 * @param knots Temperatures, strictly growing, °C.
 * @param points One weight per grid point.
 * @param grid `first`: index of the first of these grid points, `step`, °C.
 * @returns One weight per knot.
 */
export function gridMeansTransposed(
  { values: temperature, from, to }: Slice,
  points: Slice,
  grid: { first: number; step: number },
): Float64Array {
  const { first, step } = grid;
  const { values: weights, from: a } = points;
  const count = points.to - a;
  const last = to - 1 - from;
  const out = new Float64Array(to - from);
  // whole[i]: weight on the integral over the whole interval i; filled as differences, summed up afterwards.
  if (scratch.length <= last) scratch = new Float64Array(2 * last + 2);
  const whole = scratch.fill(0, 0, last + 1);
  let i = 0;
  for (let k = 0; k <= count; k++) {
    const v = ((k > 0 ? weights[a + k - 1]! : 0) - (k < count ? weights[a + k]! : 0)) / step;
    const edge = (first + k - 0.5) * step;
    while (i < last - 1 && temperature[from + i + 1]! <= edge) i++;
    if (v === 0) continue;
    const width = temperature[from + i + 1]! - temperature[from + i]!;
    const d = edge - temperature[from + i]!;
    // M(edge) = Σ of all intervals before i + d·m[i] + ½·d²/width·(m[i+1] − m[i])
    whole[i]! += v;
    const right = (0.5 * v * d * d) / width;
    out[i]! += v * d - right;
    out[i + 1]! += right;
  }
  let sum = 0;
  for (let j = last - 1; j >= 0; j--) {
    sum += whole[j + 1]!;
    const share = 0.5 * sum * (temperature[from + j + 1]! - temperature[from + j]!);
    out[j]! += share;
    out[j + 1]! += share;
  }
  return out;
}
