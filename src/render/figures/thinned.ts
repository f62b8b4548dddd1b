/**
 * Of points along x at most about `most`: the first and last of a stretch with its lowest and highest, so that no peak is lost.
 *
 * @returns Their places, ascending.
 */
export function thinned(y: readonly number[], most: number): number[] {
  const n = y.length;
  if (n <= most) return y.map((_, i) => i);
  const stretches = Math.max(1, Math.floor((most - 2) / 2));
  const kept = new Set([0, n - 1]);
  for (let s = 0; s < stretches; s++) {
    const from = Math.floor((s * n) / stretches);
    const to = Math.floor(((s + 1) * n) / stretches);
    let low = from;
    let high = from;
    for (let i = from; i < to; i++) {
      if (y[i]! < y[low]!) low = i;
      if (y[i]! > y[high]!) high = i;
    }
    kept.add(low).add(high);
  }
  return [...kept].sort((a, b) => a - b);
}
