/** From this many values on they are counted into classes first. */
const MANY = 256;
const CLASSES = 128;

/**
 * The value that stands at place `n` (from 0) when all are sorted. Many values are first counted into classes of equal width
 * up to four times their mean size, and only the class that holds the place is looked at; then selection by partition (Hoare,
 * Comm ACM 4:321, 1961) with the middle of three as the pivot.
 *
 * @param values Finite.
 */
export function nthSmallest(values: Float64Array, n: number): number {
  if (values.length < MANY) return select(values.slice(), n);
  let least = Number.POSITIVE_INFINITY;
  let sum = 0;
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!;
    if (value < least) least = value;
    sum += value;
  }
  const perClass = CLASSES / (4 * (sum / values.length - least));
  // All equal, or too far apart to be counted.
  if (!(perClass > 0 && perClass < Number.MAX_VALUE)) return select(values.slice(), n);
  const last = CLASSES - 1;
  const classOf = (value: number): number => Math.min(last, Math.floor((value - least) * perClass));
  const count = new Uint32Array(CLASSES);
  for (let i = 0; i < values.length; i++) count[classOf(values[i]!)]!++;
  let below = 0;
  let found = 0;
  while (below + count[found]! <= n) below += count[found++]!;
  const own = new Float64Array(count[found]!);
  for (let i = 0, k = 0; k < own.length; i++) if (classOf(values[i]!) === found) own[k++] = values[i]!;
  return select(own, n - below);
}

/** Selection in place. */
function select(values: Float64Array, n: number): number {
  let low = 0;
  let high = values.length - 1;
  while (high > low) {
    const a = values[low]!;
    const b = values[(low + high) >> 1]!;
    const c = values[high]!;
    const pivot = Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
    let i = low;
    let j = high;
    while (i <= j) {
      while (values[i]! < pivot) i++;
      while (values[j]! > pivot) j--;
      if (i > j) break;
      const swapped = values[i]!;
      values[i++] = values[j]!;
      values[j--] = swapped;
    }
    // Between j and i stand values equal to the pivot.
    if (n <= j) high = j;
    else if (n >= i) low = i;
    else return pivot;
  }
  return values[n]!;
}
