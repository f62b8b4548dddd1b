import { cutFixed } from "./cutFixed.ts";
import type { Layout } from "./detectLayout.ts";
import { fits } from "./fits.ts";
import { longestLine } from "./longestLine.ts";
import type { Text } from "./openText.ts";
import { type Cell, readCell } from "./readCell.ts";
import { splitCells } from "./splitCells.ts";

/** What an odd line turned out to be. */
export type OddLine = { isRow: true; cells: Cell[] } | { isRow: false; reason: string | null };

/** Reasons why a line that holds readings is no row. */
export const oddReasons = {
  count: "wrong number of cells",
  cell: "unreadable cell",
  long: "line too long",
} as const;

/** Share of the characters of a line that numbers are made of, above which it must have been a row. */
const numeric = 0.6;

/**
 * Reads a line that is no plain row: quoted cells, missing values, thousands separators, dates, fixed width; or says why it is
 * no row. `row` receives the numbers (NaN where a cell is empty). A row needs two numbers, after the first row one.
 */
export function readOddLine(
  text: Text,
  line: { from: number; to: number; layout: Layout; row: Float64Array; insideTable: boolean },
): OddLine {
  const { from, to, layout, row, insideTable } = line;
  if (from === to) return { isRow: false, reason: null };
  if (to - from > longestLine) return { isRow: false, reason: oddReasons.long };
  const written = text.decode(from, to);
  const count = layout.kinds.length;
  let split = splitCells(written, layout.delimiter);
  if (layout.fixed !== null && split.length !== count) split = cutFixed(written, layout.fixed) ?? split;
  let filled = split.length;
  while (filled > 0 && split[filled - 1] === "") filled--;
  if (filled === 0) return { isRow: false, reason: null };
  const cells = filled > 2 * count + 2 ? [] : split.slice(0, filled).map((cell) => readCell(cell, layout.decimalMark));
  const numbers = cells.filter(isNumeric).length;
  const complete = filled <= count && split.length >= count;
  if (complete && numbers >= (insideTable ? 1 : 2)) {
    while (cells.length < count) cells.push(readCell("", layout.decimalMark));
    const isAlike = ({ kind, unit }: Cell, i: number): boolean =>
      fits(kind, layout.kinds[i]!) && (unit === "" || unit === layout.units[i]);
    if (cells.every(isAlike)) {
      for (let i = 0; i < count; i++) row[i] = layout.kinds[i] === "text" ? Number.NaN : cells[i]!.value;
      return { isRow: true, cells };
    }
  }
  if (!holdsReadings(written, split, cells, complete)) return { isRow: false, reason: "text" };
  return { isRow: false, reason: complete ? oddReasons.cell : oddReasons.count };
}

/** Whether a line must have been a row: most of its cells are numbers, or most of its characters such as numbers have. */
function holdsReadings(written: string, words: string[], cells: Cell[], complete: boolean): boolean {
  if (/^\s*(?:[#%!]|\/\/)/.test(written)) return false;
  const numbers = cells.filter(isNumeric).length;
  if (complete && words.every((word) => /^\p{L}/u.test(word))) return false;
  // Of two cells with one number a row begins with the number, a remark with its key.
  const beginsWithNumber = cells[0] !== undefined && isNumeric(cells[0]);
  if (complete && (numbers > cells.length / 2 || (numbers === cells.length / 2 && beginsWithNumber))) return true;
  const characters = written.replace(/[\s"]+/g, "");
  const ofNumbers = characters.replace(/[^\d.,;|:eE+-]+/g, "");
  return /\d/.test(characters) && ofNumbers.length >= numeric * characters.length;
}

function isNumeric({ kind }: Cell): boolean {
  return kind !== "text" && kind !== "missing";
}
