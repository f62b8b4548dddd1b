/** Adds `factor` times `values` to `sum`, which is changed. */
export function addScaled(sum: Float64Array, values: Float64Array, factor: number): void {
  for (let k = 0; k < sum.length; k++) sum[k]! += factor * values[k]!;
}
