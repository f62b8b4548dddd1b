import type { FixedWidth } from "./fixedWidth.ts";

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
