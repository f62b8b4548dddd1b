/// <reference path="../papaparse.d.ts" />
import Papa from "papaparse/papaparse.min.js";
import { formulaCell } from "../formulaCell.ts";
import { formatNumber } from "./formatNumber.ts";

/** Texts that are kept as they are written. */
const MOST_KNOWN = 10_000;

/** What a cell may hold; null is an empty cell. */
export type Cell = string | number | null;

/**
 * Rows → CSV (RFC 4180 with LF line ends): commas, quoted where needed, numbers at 9 significant digits. A text cell that a
 * spreadsheet would run as a formula gets an apostrophe in front; `parseSheet` takes it off again.
 *
 * @param columns Names of the columns, in their order.
 * @param rows One object per row, from a list or one after another; further keys are ignored.
 */
export function toCsv<Column extends string>(
  columns: readonly Column[],
  rows: Iterable<{ readonly [K in Column]: Cell }>,
): string {
  // The same few texts stand in many rows.
  const known = new Map<string, string>();
  const textCell = (text: string): string => {
    const written = known.get(text) ?? quoted(text);
    if (known.size < MOST_KNOWN) known.set(text, written);
    return written;
  };
  let csv = `${columns.map(textCell).join(",")}\n`;
  for (const row of rows) {
    let line = "";
    for (const [i, column] of columns.entries()) {
      const cell: Cell = row[column];
      if (i > 0) line += ",";
      if (typeof cell === "number") line += formatNumber(cell);
      else if (cell !== null) line += textCell(cell);
    }
    csv += `${line}\n`;
  }
  return csv;
}

function quoted(text: string): string {
  return Papa.unparse({ fields: [], data: [[text]] }, { newline: "\n", escapeFormulae: formulaCell });
}
