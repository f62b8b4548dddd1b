import type { Layout } from "./detectLayout.ts";
import { parseUnit } from "./parseUnit.ts";
import { readCell } from "./readCell.ts";
import { splitCells } from "./splitCells.ts";

/** Longest heading line, characters. */
const longest = 20_000;

/**
 * Splits a line above a table into as many cells as the table has columns: by the table's delimiter, by another one, or by
 * where the words stand; null where that can't be, or where most cells are numbers.
 */
export function splitHeadingLine(line: string, layout: Layout, firstRow: string): string[] | null {
  const count = layout.kinds.length;
  if (line.length > longest) return null;
  // "# Time, Temp": the mark belongs to no column.
  const bare = line.replace(/^\s*(?:[#%;!*]|\/\/)+\s*(?=\S)/, "");
  const texts = bare === line ? [line] : [line, bare];
  const attempts = [...texts.flatMap((text) => splits(text, layout.delimiter)), () => alignWords(line, firstRow)];
  for (const attempt of layout.delimiter === " " ? attempts : attempts.slice(0, -1)) {
    const cells = fitted(attempt(), count);
    if (cells !== null && isHeading(cells)) return cells;
  }
  return null;
}

/** Ways to split a line, the likeliest first. */
function splits(line: string, delimiter: Layout["delimiter"]): (() => string[])[] {
  const others = ["\t", ";", "|", ","].filter((other) => other !== delimiter && line.includes(other));
  const byOther = others.map((other) => () => splitCells(line, other));
  if (delimiter !== " ") return [() => splitCells(line, delimiter), ...byOther];
  return [
    () => line.trim().split(/\t+|\s{2,}/),
    () => mergeUnits(splitCells(line, " ")),
    () => splitCells(line, " "),
    ...byOther,
  ];
}

/** Empty cells at the end come and go. */
function fitted(cells: string[], count: number): string[] | null {
  const kept = [...cells];
  while (kept.length > count && kept.at(-1) === "") kept.pop();
  return kept.length === count ? kept : null;
}

function isHeading(cells: string[]): boolean {
  const filled = cells.filter((cell) => cell !== "");
  // A row with the other decimal mark is no heading.
  const isNumber = (cell: string): boolean =>
    [".", ","].some((mark) => readCell(cell, mark as "." | ",").kind !== "text");
  const numbers = filled.filter((cell) => isNumber(cell) && parseUnit(cell) === null);
  return filled.length > 0 && numbers.length <= filled.length / 3;
}

/** Where blanks delimit, a unit belongs to the name before it: `Temp. (°C)`. */
function mergeUnits(words: string[]): string[] {
  const cells: string[] = [];
  for (const word of words) {
    if (cells.length > 0 && (/^[([{/]/.test(word) || /[/(]$/.test(cells.at(-1)!)))
      cells[cells.length - 1] += ` ${word}`;
    else cells.push(word);
  }
  return cells;
}

/** Words above the numbers they belong to: each goes to the column in whose reach its middle lies. */
function alignWords(line: string, firstRow: string): string[] {
  if (line.includes("\t") || firstRow.includes("\t")) return [];
  const numbers = [...firstRow.matchAll(/\S+/g)];
  const ends = numbers.map(({ index, 0: number }) => index + number.length);
  const cells = numbers.map(() => "");
  for (const { index, 0: word } of line.matchAll(/\S+/g)) {
    const middle = index + word.length / 2;
    const column = ends.findIndex((end) => middle <= end);
    const at = column < 0 ? ends.length - 1 : column;
    cells[at] = `${cells[at]} ${word}`.trim();
  }
  // Every column has a name, otherwise the places mean nothing.
  return cells.includes("") ? [] : cells;
}
