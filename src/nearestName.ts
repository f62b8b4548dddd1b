/**
 * The known name closest to a misspelt one, or null where none is close.
 *
 * @param options `atMost`: the largest edit distance. @default a third of the length
 */
export function nearestName(wrong: string, known: readonly string[], options: { atMost?: number } = {}): string | null {
  const { atMost = Math.max(1, Math.floor(wrong.length / 3)) } = options;
  let best: string | null = null;
  let closest = atMost + 1;
  for (const name of known) {
    if (Math.abs(name.length - wrong.length) >= closest) continue;
    const distance = editDistance(wrong.toLowerCase(), name.toLowerCase());
    if (distance < closest) {
      closest = distance;
      best = name;
    }
  }
  return best;
}

/** Levenshtein distance. */
function editDistance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const change = row[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1);
      next.push(Math.min(change, row[j]! + 1, next[j - 1]! + 1));
    }
    row = next;
  }
  return row[b.length]!;
}
