/**
 * How often each distinct value occurs, from the smallest value up.
 *
 * @param values Finite numbers.
 * @example
 * ```ts
 * if (tieSizes([3, 1, 3, 2]).join() !== "1,1,2") throw new Error("1 and 2 once, 3 twice");
 * ```
 */
export function tieSizes(values: Iterable<number>): number[] {
  const counts = new Map<number, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  return [...counts].sort(([a], [b]) => a - b).map(([, count]) => count);
}
