import { columnReader } from "./columnReader.ts";
import { encodeText, type TextEncoding } from "./encodeText.ts";
import type { SimulatedRun } from "./types.ts";

/** What a column of an export holds. */
export type ExportQuantity =
  | "index"
  | "time"
  | "temperature"
  | "programme-temperature"
  | "mass"
  | "mass-percent"
  | "mass-fraction"
  | "mass-change"
  | "mass-change-percent"
  | "derivative";

/** A column of an export. */
export interface ExportColumn {
  quantity: ExportQuantity;
  /** Heading, as it is written. */
  name: string;
  /** Unit, as it is written; it also says how to convert. Empty: the column has none. */
  unit: string;
  /** Digits after the decimal mark. */
  decimals: number;
  /** Written as 1.2345E+01. @default false */
  exponent?: boolean;
}

/** How a text export is written. */
export interface ExportLayout {
  encoding: TextEncoding;
  /** @default false */
  byteOrderMark?: boolean;
  /** `" "` aligns the columns with several blanks. */
  delimiter: "\t" | ";" | "," | " ";
  decimalMark: "." | ",";
  lineEnd: "\n" | "\r\n";
  /** Lines before the headings. @default [] */
  preamble?: string[];
  /** Where the units stand: behind the name, in a row of their own, or nowhere; `none` leaves out the headings too. */
  headings: "name (unit)" | "name [unit]" | "name/unit" | "unit row" | "names only" | "none";
  columns: ExportColumn[];
  /** Lines after the table. @default [] */
  footer?: string[];
  /** Every row ends with a delimiter. @default false */
  trailingDelimiter?: boolean;
}

/**
 * Writes a simulated run as the text that a thermobalance's software might export.
 *
 * @returns The bytes of the file.
 * @throws {RangeError} A unit that the quantity does not have, or a decimal comma in a table delimited by commas.
 * @example
 * ```ts
 * import { exportLayouts, formatExport, readRun, simulateRun } from "tg-hydrates";
 * const programme = { start_C: 25, segments: [{ to_C: 1000, rate_K_per_min: 10 }] };
 * const simulated = simulateRun({ sample_mg: 30, reactions: [], programme }, { rows: 500 });
 * const run = readRun(formatExport(simulated, exportLayouts.semicolons));
 * if (run.temperature.length !== 500) throw new Error("what is written can be read");
 * ```
 */
export function formatExport(run: SimulatedRun, layout: ExportLayout): Uint8Array<ArrayBuffer> {
  const { delimiter, decimalMark, lineEnd, columns, preamble = [], footer = [], trailingDelimiter = false } = layout;
  if (delimiter === "," && decimalMark === ",") {
    throw new RangeError("Choose another delimiter: commas cannot both end the cells and mark the decimals");
  }
  const readers = columns.map((column) => columnReader(run, column));
  const rows: string[][] = headingRows(layout);
  const headings = rows.length;
  for (let i = 0; i < run.time_s.length; i++) {
    rows.push(
      columns.map(({ decimals, exponent = false }, c) => {
        const value = readers[c]!(i);
        const text = exponent ? value.toExponential(decimals).toUpperCase() : value.toFixed(decimals);
        return decimalMark === "," ? text.replace(".", ",") : text;
      }),
    );
  }
  const end = trailingDelimiter ? delimiter : "";
  const lines = delimiter === " " ? aligned(rows, headings) : rows.map((cells) => cells.join(delimiter) + end);
  return encodeText([...preamble, ...lines, ...footer, ""].join(lineEnd), layout.encoding, {
    byteOrderMark: layout.byteOrderMark ?? false,
  });
}

function headingRows({ headings, columns }: ExportLayout): string[][] {
  const names = columns.map(({ name }) => name);
  switch (headings) {
    case "none":
      return [];
    case "names only":
      return [names];
    case "unit row":
      return [names, columns.map(({ unit }) => unit)];
    case "name (unit)":
      return [columns.map(({ name, unit }) => (unit === "" ? name : `${name} (${unit})`))];
    case "name [unit]":
      return [columns.map(({ name, unit }) => (unit === "" ? name : `${name} [${unit}]`))];
    case "name/unit":
      return [columns.map(({ name, unit }) => (unit === "" ? name : `${name}/${unit}`))];
  }
}

/** Columns flush right, two blanks apart; blanks inside a heading would split it, so they become underscores. */
function aligned(rows: string[][], headings: number): string[] {
  const cells = rows.map((row, i) => (i < headings ? row.map((cell) => cell.replaceAll(" ", "_") || "-") : row));
  const widths = cells[0]!.map((_, c) => cells.reduce((widest, row) => Math.max(widest, row[c]!.length), 0));
  return cells.map((row) => row.map((cell, c) => cell.padStart(widths[c]! + 2)).join(""));
}
