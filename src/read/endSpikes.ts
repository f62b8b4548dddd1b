/** An end reading stands off by at least this share of the largest value … */
const SHARE = 0.01;
/** … and by this many times what the readings beside it change. */
const TIMES = 10;

/**
 * Odd readings among the first two and the last two: the balance not yet at rest, the sample lifted off. They have no
 * neighbours on both sides, so the step to the readings inside is judged against the steps there.
 *
 * @returns Indices of such readings, growing.
 */
export function endSpikes(values: Float64Array): number[] {
  const n = values.length;
  if (n < 8) return [];
  const odd = (outer: number[], inner: number[]): number[] => {
    const [a, b, c, d] = inner.map((i) => values[i]!) as [number, number, number, number];
    const usual = Math.max(Math.abs(a - b), Math.abs(b - c), Math.abs(c - d));
    return outer.filter((i) => {
      const off = Math.abs(values[i]! - a);
      return off > TIMES * usual && off > SHARE * largestOf(values);
    });
  };
  return [...odd([0, 1], [2, 3, 4, 5]), ...odd([n - 2, n - 1], [n - 3, n - 4, n - 5, n - 6])];
}

function largestOf(values: Float64Array): number {
  let largest = 0;
  for (let i = 0; i < values.length; i++) largest = Math.max(largest, Math.abs(values[i]!));
  return largest;
}
