/// <reference path="../papaparse.d.ts" />
import Papa from "papaparse/papaparse.min.js";
import { formulaCell } from "../formulaCell.ts";
import type { Problem } from "./types.ts";

/** One row of a small table, cells by column name. */
export interface SheetRow {
  /** 1-based line on which the row starts. */
  line: number;
  /** A map, since a column may be called `__proto__`. Empty cells are left out. */
  cells: Map<string, string>;
}

/** A run sheet or mix table in its own words. */
export interface SheetTable {
  source: string;
  delimiter: string;
  /** Names in the order of the file: known ones in lower case, others as written. */
  columns: string[];
  /** 1-based line of the heading. */
  heading: number;
  rows: SheetRow[];
  problems: Problem[];
}

/** As many rows as a folder may have files; a table with more is no run sheet. */
const MOST_ROWS = 100_000;
/** A mix table with every oxide, phase and addition has a hundred. */
const MOST_COLUMNS = 1000;
/** A heading is looked for in so many characters. */
const LONGEST_HEADING = 100_000;

/**
 * Splits the text of a small table into named cells. Comma, semicolon or tab: the one under which most names of the heading
 * are known. Blank rows are skipped, cells trimmed, and the apostrophe that guards a formula-like cell is taken off.
 *
 * @param text Whole file; a byte-order mark and any kind of line end are fine. At most 100,000 rows and 1000 columns.
 */
export function splitSheet(text: string, options: { name: string; known: readonly string[] }): SheetTable {
  const { name: source, known } = options;
  const lines = text.replace(/^\uFEFF/, "").replaceAll(/\r\n?/g, "\n");
  const start = /^[\s,;]*\n/.exec(lines)?.[0] ?? "";
  const body = lines.slice(start.length);
  const delimiter = bestDelimiter(body, known);
  const { data, errors } = Papa.parse(body, { delimiter, newline: "\n", preview: MOST_ROWS + 3 });
  let line = start.split("\n").length;
  const table: SheetTable = { source, delimiter, columns: [], heading: line, rows: [], problems: [] };
  const broken = errors.find(({ code }) => code === "MissingQuotes" || code === "InvalidQuotes");
  // Beside the rows there are the heading and, behind the last line end, an empty one.
  const columns = data[0]?.length ?? 0;
  if (data.length > MOST_ROWS + 2 || columns > MOST_COLUMNS) {
    const what = columns > MOST_COLUMNS ? `${MOST_COLUMNS} columns` : `${MOST_ROWS} rows`;
    table.problems.push({ source, message: `the table has more than ${what}: name the right file, or split it` });
    return table;
  }
  const names: string[] = [];
  for (const [i, cells] of data.entries()) {
    if (broken && i === broken.row) {
      const what =
        broken.code === "MissingQuotes"
          ? "a quotation mark is opened in this row and never closed: close it, or take it out"
          : "text follows a closing quotation mark: write a quotation mark inside a quoted cell twice";
      table.problems.push({ source, line, message: what });
      break;
    }
    if (i === 0) {
      names.push(...cells.map((cell) => nameOf(cell, known)));
      checkNames(names, line, table);
    } else if (cells.some((cell) => cell.trim() !== "")) {
      table.rows.push({ line, cells: namedCells(cells, names, line, table) });
    }
    line += 1 + cells.join("").split("\n").length - 1;
  }
  return table;
}

function bestDelimiter(body: string, known: readonly string[]): string {
  let best = ",";
  let most = -1;
  for (const delimiter of [",", ";", "\t"]) {
    const heading = Papa.parse(body.slice(0, LONGEST_HEADING), { delimiter, newline: "\n", preview: 1 }).data[0] ?? [];
    const found = heading.filter((cell) => known.includes(nameOf(cell, known))).length;
    // Where no name is known, the delimiter that gives more cells is the likelier one.
    const score = found + heading.length / 1e6;
    if (score > most) {
      most = score;
      best = delimiter;
    }
  }
  return best;
}

/** Known names may be written with capitals. */
function nameOf(cell: string, known: readonly string[]): string {
  const name = cleanCell(cell);
  return known.includes(name.toLowerCase()) ? name.toLowerCase() : name;
}

function checkNames(names: readonly string[], line: number, table: SheetTable): void {
  for (const [i, name] of names.entries()) {
    if (name === "") continue;
    if (names.indexOf(name) < i) {
      table.problems.push({
        source: table.source,
        line,
        column: name,
        message: `the column ${JSON.stringify(name)} stands in the heading twice: take one out`,
      });
    } else table.columns.push(name);
  }
}

function namedCells(cells: string[], names: string[], line: number, table: SheetTable): Map<string, string> {
  const named = new Map<string, string>();
  for (const [i, cell] of cells.entries()) {
    const value = cleanCell(cell);
    const name = names[i] ?? "";
    if (value === "") continue;
    if (name !== "") {
      if (!named.has(name)) named.set(name, value);
      continue;
    }
    const what =
      i < names.length ? "has no name in the heading" : `is beyond the ${names.length} columns of the heading`;
    table.problems.push({
      source: table.source,
      line,
      message: `cell ${i + 1}, ${short(value)}, ${what}: name the column, or quote a cell that contains the delimiter`,
    });
    // A row may have a million such cells: the first says it.
    break;
  }
  return named;
}

function cleanCell(cell: string): string {
  const trimmed = cell.trim().normalize("NFC");
  return trimmed.startsWith("'") && formulaCell.test(trimmed) ? trimmed.slice(1) : trimmed;
}

function short(value: string): string {
  return JSON.stringify(value.length > 60 ? `${value.slice(0, 57)}…` : value);
}
