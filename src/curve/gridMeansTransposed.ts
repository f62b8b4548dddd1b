/**
 * Transpose of {@link gridMeans}: what weights on the grid means put on the masses at the knots.
 *
 * @param temperature Strictly growing, °C.
 * @param weights One weight per grid point.
 * @param grid `first`: index of the first grid point, `step`, °C.
 * @returns One weight per knot.
 */
export function gridMeansTransposed(
  temperature: Float64Array,
  weights: Float64Array,
  grid: { first: number; step: number },
): Float64Array {
  const { first, step } = grid;
  const last = temperature.length - 1;
  const out = new Float64Array(temperature.length);
  // onIntegral[i]: weight on the integral over the whole interval i; filled as differences, summed up afterwards.
  const whole = new Float64Array(last + 1);
  let i = 0;
  for (let k = 0; k <= weights.length; k++) {
    const v = ((k > 0 ? weights[k - 1]! : 0) - (k < weights.length ? weights[k]! : 0)) / step;
    const edge = (first + k - 0.5) * step;
    while (i < last - 1 && temperature[i + 1]! <= edge) i++;
    if (v === 0) continue;
    const width = temperature[i + 1]! - temperature[i]!;
    const d = edge - temperature[i]!;
    // M(edge) = Σ of all intervals before i + d·m[i] + ½·d²/width·(m[i+1] − m[i])
    whole[i]! += v;
    const right = (0.5 * v * d * d) / width;
    out[i]! += v * d - right;
    out[i + 1]! += right;
  }
  let sum = 0;
  for (let j = last - 1; j >= 0; j--) {
    sum += whole[j + 1]!;
    const share = 0.5 * sum * (temperature[j + 1]! - temperature[j]!);
    out[j]! += share;
    out[j + 1]! += share;
  }
  return out;
}
