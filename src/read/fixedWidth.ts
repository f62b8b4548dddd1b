/** Where the columns of a table of fixed width end, or begin: character positions. */
export interface FixedWidth {
  /** One past the last character of every column (numbers set flush right), or null. */
  ends: number[] | null;
  /** First character of every column (set flush left), or null. */
  starts: number[] | null;
}

/**
 * Whether rows are set in columns of fixed width: the numbers of each column end (or begin) at the same place in every row.
 * Null where they don't, or where tabs make places meaningless.
 *
 * @param rows complete rows, all with the same number of numbers
 */
export function fixedWidth(rows: string[]): FixedWidth | null {
  if (rows.length < 3 || rows.some((row) => row.includes("\t"))) return null;
  const places = rows.map((row) => [...row.matchAll(/\S+/g)].map(({ index, 0: word }) => [index, index + word.length]));
  const [first, ...others] = places as [number[][], ...number[][][]];
  const same = (side: 0 | 1): boolean =>
    others.every((row) => row.length === first.length && row.every((place, i) => place[side] === first[i]![side]));
  // Numbers of one length everywhere end and begin alike: then flush right is as good.
  const ends = same(1) ? first.map((place) => place[1]!) : null;
  const starts = ends === null && same(0) ? first.map((place) => place[0]!) : null;
  return ends === null && starts === null ? null : { ends, starts };
}
