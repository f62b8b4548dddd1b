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

/**
 * Cuts a row at the places of its columns, for rows with empty cells and for numbers that touch (`12.3-0.5`); null where a word
 * does not end (or begin) exactly at the place of a column, since then nobody knows which column it belongs to.
 */
export function cutFixed(row: string, { ends, starts }: FixedWidth): string[] | null {
  const places = (ends ?? starts)!;
  const cells = places.map(() => "");
  // Two numbers touch where the second has a sign.
  for (const { index, 0: word } of row.matchAll(/[+-]?[^\s+-]+(?:(?<=[\d.]e)[+-]\d+)?/gi)) {
    const column = places.indexOf(ends === null ? index : index + word.length);
    if (column < 0) return null;
    cells[column] = word;
  }
  return cells;
}
