import { zeroCelsius } from "./constants.ts";
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
  const readers = columns.map((column) => readerOf(run, column));
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

/** The value of one cell in the column's own unit, by row. */
function readerOf(run: SimulatedRun, column: ExportColumn): (row: number) => number {
  const { mass_mg, temperature_C, true_temperature_C, time_s, model } = run;
  const initial = model.sample_mg;
  switch (column.quantity) {
    case "index":
      return (i) => i + 1;
    case "time": {
      const seconds = factor(column, { s: 1, sec: 1, min: 60, h: 3600 });
      return (i) => time_s[i]! / seconds;
    }
    case "temperature":
      return inTemperatureUnit(column, temperature_C);
    case "programme-temperature":
      return inTemperatureUnit(column, true_temperature_C);
    case "mass": {
      const unit = factor(column, massUnits);
      return (i) => mass_mg[i]! / unit;
    }
    case "mass-change": {
      const unit = factor(column, massUnits);
      return (i) => (mass_mg[i]! - initial) / unit;
    }
    case "mass-percent":
      return (i) => (100 * mass_mg[i]!) / initial;
    case "mass-change-percent":
      return (i) => (100 * (mass_mg[i]! - initial)) / initial;
    case "mass-fraction":
      return (i) => mass_mg[i]! / initial;
    case "derivative": {
      // % of the initial mass per minute, by the difference of neighbouring readings, falling mass negative.
      factor(column, { "%/min": 1 });
      return (i) => {
        const before = Math.max(i - 1, 0);
        const after = Math.min(i + 1, mass_mg.length - 1);
        return ((mass_mg[after]! - mass_mg[before]!) / initial) * (6000 / (time_s[after]! - time_s[before]!));
      };
    }
  }
}

const massUnits = { mg: 1, µg: 1e-3, ug: 1e-3, g: 1e3 };

function inTemperatureUnit(column: ExportColumn, celsius: Float64Array): (row: number) => number {
  const unit = column.unit.replace("°", "");
  if (unit === "K") return (i) => celsius[i]! + zeroCelsius;
  if (unit === "F") return (i) => celsius[i]! * 1.8 + 32;
  factor({ ...column, unit }, { C: 1, "": 1, degC: 1 });
  return (i) => celsius[i]!;
}

/** Size of the column's unit; a column without one is in the first. */
function factor(column: ExportColumn, units: Record<string, number>): number {
  const size = column.unit === "" ? Object.values(units)[0] : units[column.unit];
  if (size === undefined) {
    throw new RangeError(
      `Choose a unit of ${Object.keys(units).join(", ")} for the column "${column.name}", not "${column.unit}"`,
    );
  }
  return size;
}
