import { nearestName } from "../nearestName.ts";
import type { Mix } from "../phases/types.ts";
import { type CellReader, cellReader } from "./cellReader.ts";
import { numberStyle } from "./numberStyle.ts";
import { type SheetTable, splitSheet } from "./splitSheet.ts";
import type { Problem } from "./types.ts";

const fixed = [
  "mix",
  "w_b",
  "loi_binder_pct",
  "sand_binder_ignited",
  "u_w_b",
  "u_loi_binder_pct",
  "u_sand_binder_ignited",
  "polymer_pct",
  "retarder",
] as const;

/** What people call the fixed columns, beyond misspellings; kept as further columns they would be lost in silence. */
const otherNames = new Map([
  ["wb", "w_b"],
  ["wc", "w_b"],
  ["wbratio", "w_b"],
  ["wcratio", "w_b"],
  ["loi", "loi_binder_pct"],
  ["loipct", "loi_binder_pct"],
  ["loibinder", "loi_binder_pct"],
  ["sandbinder", "sand_binder_ignited"],
  ["uloi", "u_loi_binder_pct"],
  ["uloipct", "u_loi_binder_pct"],
  ["usandbinder", "u_sand_binder_ignited"],
  ["polymer", "polymer_pct"],
]);

/** No number of a mix is larger, in whatever unit. */
const LARGEST = 1e15;

/** Names that mean something to the language and cannot safely be keys of plain data. */
const reserved = ["__proto__", "constructor", "prototype"];

/**
 * The rows of a mix table: what is constant for a mix.
 *
 * @param text A table separated by comma, semicolon or tab, with a heading. Columns in any order: `mix` (required), `w_b`,
 * `loi_binder_pct`, `sand_binder_ignited`, `u_…` of these three, `polymer_pct`, `retarder`. Every further column goes to
 * `contents`: one whose name ends in `_pct` holds percentages from 0 to 100 and a wrong cell is an error; any other
 * holds numbers if all its cells are numbers, otherwise text. A further column whose name is nearly one of the above is an error,
 * since its values would be lost.
 * @param options `name` of the table for messages.
 *
 * @example
 * ```ts
 * import { parseMixes } from "tg-hydrates";
 * const { rows } = parseMixes("mix;w_b;gypsum_pct\nM1;0,45;20\n", { name: "mixes.csv" });
 * if (rows[0]!.w_b !== 0.45 || rows[0]!.contents.gypsum_pct !== 20) throw new Error("decimal commas are read");
 * ```
 */
export function parseMixes(text: string, options: { name: string }): { rows: Mix[]; problems: Problem[] } {
  const table = splitSheet(text, { name: options.name, known: fixed });
  const { source, problems, columns } = table;
  if (!columns.includes("mix")) {
    const message = "the mix table has no column mix: add it, with one row per mix";
    return { rows: [], problems: [...problems, { source, message }] };
  }
  const further = columns.filter((column) => !(fixed as readonly string[]).includes(column) && isUsable(column, table));
  if (table.rows.length === 0 && problems.length === 0)
    problems.push({ source, message: "the mix table has no rows: write one row per mix" });
  const percentages = further.filter((column) => column.toLowerCase().endsWith("_pct"));
  const numbers = [...fixed.filter((column) => column !== "mix" && column !== "retarder"), ...percentages];
  const others = further.filter((column) => !percentages.includes(column));
  const numericOthers = others.filter((column) => isNumeric(column, table));
  const style = numberStyle(table, [...numbers, ...numericOthers]);
  const firstLine = new Map<string, number>();
  const rows = table.rows.flatMap((row) => {
    const cells = cellReader(row, table, style);
    const mix = cells.text("mix");
    if (mix === null) {
      if (cells.isEmpty("mix")) cells.wrong("mix", "the row names no mix: give it a name, or take the row out");
      return [];
    }
    const before = firstLine.get(mix);
    if (before !== undefined) {
      cells.wrong("mix", `the mix ${JSON.stringify(mix)} stands in line ${before} already: keep one of the two rows`);
      return [];
    }
    firstLine.set(mix, row.line);
    const contents = [
      ...percentages.map((column) => [column, cells.number(column, { min: 0, max: 100 })] as const),
      ...others.map((column) => [column, plain(cells, column, numericOthers.includes(column))] as const),
    ].filter((entry): entry is [string, number | string] => entry[1] !== null);
    return [toMix(mix, cells, contents)];
  });
  return { rows, problems };
}

function toMix(mix: string, cells: CellReader, contents: [string, number | string][]): Mix {
  return {
    mix,
    w_b: cells.number("w_b", { above: 0, max: 5 }),
    loi_binder_pct: cells.number("loi_binder_pct", { min: 0, below: 100 }),
    sand_binder_ignited: cells.number("sand_binder_ignited", { min: 0, max: 50 }),
    u_w_b: cells.number("u_w_b", { min: 0, max: 5 }),
    u_loi_binder_pct: cells.number("u_loi_binder_pct", { min: 0, max: 100 }),
    u_sand_binder_ignited: cells.number("u_sand_binder_ignited", { min: 0, max: 50 }),
    polymer_pct: cells.number("polymer_pct", { min: 0, max: 100 }),
    retarder: cells.text("retarder"),
    contents: Object.fromEntries(contents),
  };
}

/** Whether a further column can be kept; where not, the problem is noted. */
function isUsable(column: string, { source, heading, problems }: SheetTable): boolean {
  const shown = JSON.stringify(column.slice(0, 60));
  const wrong = (message: string): boolean => {
    problems.push({ source, line: heading, column, message });
    return false;
  };
  if (reserved.includes(column)) return wrong(`${shown} cannot be the name of a column: rename it`);
  const meant = meantColumn(column);
  if (meant === null) return true;
  return wrong(`${shown} is not a column that the mix table knows: did you mean ${meant}? Otherwise rename it`);
}

/** The fixed column that a name was meant to be: the same letters, a common other name, or two letters wrong. */
function meantColumn(column: string): string | null {
  const bare = bareName(column);
  const known = otherNames.get(bare) ?? fixed.find((name) => bareName(name) === bare);
  // A short name has too many neighbours to guess from.
  const long = fixed.filter((name) => name.length >= 6);
  return known ?? nearestName(column, long, { atMost: 2 });
}

function bareName(name: string): string {
  return name.toLowerCase().replaceAll(/[^a-z]/g, "");
}

/** Whether every cell of a column without a declared kind is a number, with either decimal mark. */
function isNumeric(column: string, { rows }: SheetTable): boolean {
  return rows.every(({ cells }) =>
    /^(?:[-+]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:e[-+]?\d+)?)?$/i.test(cells.get(column) ?? ""),
  );
}

function plain(cells: CellReader, column: string, numeric: boolean): number | string | null {
  const text = cells.text(column);
  return numeric && text !== null ? cells.number(column, { min: -LARGEST, max: LARGEST }) : text;
}
