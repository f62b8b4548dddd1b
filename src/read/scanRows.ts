import { UnreadableError } from "../errors.ts";
import type { Layout } from "./detectLayout.ts";
import { lineEnd } from "./lineEnd.ts";
import type { Text } from "./openText.ts";
import type { Cell } from "./readCell.ts";
import { readOddLine } from "./readOddLine.ts";
import { noExponent, readPlainRows, type Sheet, ways } from "./readPlainRows.ts";
import type { CellKind } from "./types.ts";

/** A line that is no row of the table. */
export interface Gap {
  /** Why: null for a blank line, `text` for one that holds no readings, otherwise what is wrong with the readings in it. */
  reason: string | null;
  /** 1-based line, its first byte and the one past its last. */
  line: number;
  from: number;
  to: number;
  /** Rows read before it. */
  row: number;
}

/** All rows of a text under one layout, and the lines between them. */
export interface Scan {
  rows: number;
  /** One array per column of the layout, longer than `rows`; NaN where a cell is empty or no number. */
  columns: Float64Array[];
  gaps: Gap[];
  /** Decimals written: the most, or those of the coarsest number of a column written with exponents. */
  decimals: number[];
}

/** More lines than this that are no rows: no table. */
const mostGaps = 1_000_000;

const wayOf: Record<CellKind, number> = {
  number: ways.number,
  clock: ways.clock,
  "short-clock": ways.other,
  date: ways.other,
  text: ways.skip,
  empty: ways.empty,
};

/** Reads all rows of a text: plain ones by {@link readPlainRows}, whatever else looks like one by {@link readOddLine}. */
export function scanRows(text: Text, layout: Layout): Scan {
  const { bytes, end } = text;
  const count = layout.kinds.length;
  let capacity = Math.ceil(end / Math.max(1, layout.lineLength) / 0.97) + 16;
  const sheet: Sheet = {
    bytes,
    delimiter: layout.delimiter.charCodeAt(0),
    mark: layout.decimalMark.charCodeAt(0),
    blank: layout.delimiter === " ",
    way: Uint8Array.from(layout.kinds, (kind) => wayOf[kind]),
    columns: layout.kinds.map(() => new Float64Array(capacity)),
    at: 0,
    rows: 0,
    most: new Int32Array(count),
    fewest: new Int32Array(count).fill(noExponent),
    decimals: new Int32Array(count),
    exponential: new Uint8Array(count),
  };
  // A line break stops every loop of the scan; what follows the last one is read carefully.
  let stop = end;
  while (stop > 0 && bytes[stop - 1] !== 10 && bytes[stop - 1] !== 13) stop--;
  const row = new Float64Array(count);
  const gaps: Gap[] = [];
  while (sheet.at < end) {
    if (sheet.rows === capacity) {
      capacity = Math.ceil(capacity * 1.5);
      sheet.columns = sheet.columns.map((column) => widened(column, capacity));
    }
    readPlainRows(sheet, stop);
    if (sheet.at >= end || sheet.rows === capacity) continue;
    const from = sheet.at;
    const to = lineEnd(text, from);
    const odd = readOddLine(text, { from, to, layout, row, insideTable: sheet.rows > 0 });
    if (odd.isRow) takeRow(sheet, row, odd.cells);
    else {
      const line = sheet.rows + gaps.length + 1;
      gaps.push({ reason: odd.reason, line, from, to, row: sheet.rows });
      if (gaps.length > mostGaps) {
        const message = `More than ${mostGaps} lines are no rows of a table. Export the run again as one table.`;
        throw new UnreadableError("no-table", message, { source: text.name, line });
      }
    }
    sheet.at = bytes[to] === 13 && bytes[to + 1] === 10 && to + 1 < end ? to + 2 : to + 1;
  }
  const decimals = Array.from(sheet.most, (most, c) => (sheet.fewest[c] === noExponent ? most : sheet.fewest[c]!));
  return { rows: sheet.rows, columns: sheet.columns, gaps, decimals };
}

function takeRow(sheet: Sheet, row: Float64Array, cells: Cell[]): void {
  cells.forEach(({ kind, decimals, scientific }, c) => {
    sheet.columns[c]![sheet.rows] = row[c]!;
    // Zero has no last digit that counts.
    if (kind !== "number" || (scientific && row[c] === 0)) return;
    if (scientific) sheet.fewest[c] = Math.min(sheet.fewest[c]!, decimals);
    else sheet.most[c] = Math.max(sheet.most[c]!, decimals);
  });
  sheet.rows++;
}

function widened(column: Float64Array, capacity: number): Float64Array {
  const wider = new Float64Array(capacity);
  wider.set(column);
  return wider;
}
