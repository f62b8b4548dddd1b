/**
 * The known name closest to a misspelt one, or null where none is close, or the name is too long to be misspelt.
 *
 * @param options `atMost`: the largest edit distance. @default a third of the length
 */
export function nearestName(wrong: string, known: readonly string[], options: { atMost?: number } = {}): string | null {
  const { atMost = Math.max(1, Math.floor(wrong.length / 3)) } = options;
  // Nobody misspells a novel, and comparing two of them takes the square of their length.
  if (wrong.length > LONGEST) return null;
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

/** Longest name for which a similar one is looked for, characters. */
const LONGEST = 200;

/** Edits from one word to the other; two neighbouring letters exchanged are one (Damerau, Commun ACM 7:171, 1964). */
function editDistance(a: string, b: string): number {
  let before: number[] = [];
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const change = row[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1);
      const exchanged = a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1] ? before[j - 2]! + 1 : change;
      next.push(Math.min(change, row[j]! + 1, next[j - 1]! + 1, exchanged));
    }
    before = row;
    row = next;
  }
  return row[b.length]!;
}
