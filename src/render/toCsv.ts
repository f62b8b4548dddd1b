/// <reference path="../papaparse.d.ts" />
import Papa from "papaparse/papaparse.min.js";
import { formulaCell } from "../formulaCell.ts";
import { formatNumber } from "./formatNumber.ts";

/** What a cell may hold; null is an empty cell. */
export type Cell = string | number | null;

/**
 * Rows → CSV (RFC 4180 with LF line ends): commas, quoted where needed, numbers at 9 significant digits. A text cell that a
 * spreadsheet would run as a formula gets an apostrophe in front; `parseSheet` takes it off again.
 *
 * @param columns Names of the columns, in their order.
 * @param rows One object per row; further keys are ignored.
 */
export function toCsv<Column extends string>(
  columns: readonly Column[],
  rows: readonly { readonly [K in Column]: Cell }[],
): string {
  const data = rows.map((row) =>
    columns.map((column) => {
      const cell: Cell = row[column];
      return cell === null ? "" : typeof cell === "number" ? formatNumber(cell) : cell;
    }),
  );
  // For no rows the library ends the heading itself.
  if (data.length === 0) return `${columns.join(",")}\n`;
  return `${Papa.unparse({ fields: columns, data }, { newline: "\n", escapeFormulae: formulaCell })}\n`;
}
