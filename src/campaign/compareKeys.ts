/**
 * Order of two keys, part by part: what is missing first, numbers by size, text by code unit (the same in every language and
 * engine).
 */
export function compareKeys(a: readonly (string | number | null)[], b: readonly (string | number | null)[]): number {
  for (const [i, left] of a.entries()) {
    const right = b[i] ?? null;
    if (left === right) continue;
    if (left === null) return -1;
    if (right === null) return 1;
    return left < right ? -1 : 1;
  }
  return 0;
}
