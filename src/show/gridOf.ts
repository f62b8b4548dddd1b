import { nearestName } from "../nearestName.ts";
import { fixed } from "../render/decisionWords.ts";
import { cellText } from "./cellText.ts";
import { columnDecimals } from "./columnDecimals.ts";
import type { Grid, ShowOptions } from "./types.ts";

/** Rows that a person still reads. */
const MOST_ROWS = 50;

/** A row by its columns. */
export type Row = Readonly<Record<string, unknown>>;

/**
 * Rows → table: columns in the order in which the rows first name them, numbers to the right.
 *
 * @param options `of`: what the rows are, for the caption; `total`: how many there are, where not all were handed in.
 * @throws RangeError for a column that no row has, or a number of rows that is none.
 */
export function gridOf(rows: readonly Row[], options: ShowOptions & { of: string; total?: number }): Grid {
  const { rows: most = MOST_ROWS, of, total = rows.length, caption = of } = options;
  if (!(most >= 1)) throw new RangeError(`Show at least one row: rows is ${most}`);
  const known = [...new Set(rows.flatMap((row) => Object.keys(row)))];
  const names = options.columns ?? known;
  for (const name of names) if (rows.length > 0 && !known.includes(name)) throw unknownColumn(name, known);
  const shown = rows.slice(0, most);
  const decimals = names.map((name) => columnDecimals(shown.map((row) => row[name])));
  return {
    caption: `${caption} (${count(total, shown.length)})`,
    columns: names.map((name) => ({
      heading: name,
      align:
        shown.some((row) => isNumber(row[name])) && shown.every((row) => mayBeNumber(row[name])) ? "right" : "left",
    })),
    rows: shown.map((row) => names.map((name, i) => textOf(row[name], decimals[i]!))),
  };
}

function textOf(value: unknown, decimals: number | null): string {
  return typeof value === "number" && decimals !== null && decimals <= 100 ? fixed(value, decimals) : cellText(value);
}

function count(total: number, shown: number): string {
  const all = `${total} ${total === 1 ? "row" : "rows"}`;
  return shown < total ? `the first ${shown} of ${all}` : all;
}

/** Numbers, measured or not; a CSV has them as text. */
function isNumber(value: unknown): boolean {
  if (typeof value === "string") return /^[-+]?\d+(?:\.\d+)?(?:e[-+]?\d+)?$/i.test(value);
  return typeof value === "number" || (typeof value === "object" && value !== null && "value" in value);
}

function mayBeNumber(value: unknown): boolean {
  if (value === null || value === undefined || value === "") return true;
  return isNumber(value) || (typeof value === "object" && "missing" in value);
}

function unknownColumn(name: string, known: readonly string[]): RangeError {
  const near = nearestName(name, known);
  const hint = near === null ? `the columns are ${known.join(", ")}` : `did you mean ${JSON.stringify(near)}?`;
  return new RangeError(`No row has the column ${JSON.stringify(name)}: ${hint}`);
}
