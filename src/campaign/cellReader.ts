import type { SheetRow, SheetTable } from "./splitSheet.ts";
import type { Problem } from "./types.ts";

/** How the numbers of a table are written. */
export interface NumberStyle {
  decimalMark: "." | ",";
  /** Why a number with a comma is refused; absent where commas are read as decimal marks. */
  commaRefused?: string;
}

/** Reads the cells of one row and notes what is wrong with them. */
export interface CellReader {
  isEmpty(column: string): boolean;
  /** Text of a cell, or null where it is empty or holds control characters. */
  text(column: string): string | null;
  /** Number of a cell, or null where it is empty or wrong. */
  number(column: string, range?: { min?: number; max?: number; above?: number; below?: number }): number | null;
  /** Notes that a cell of this row is wrong. */
  wrong(column: string, message: string): void;
}

const point = /^[-+]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[-+]?\d+)?$/i;
const comma = /^[-+]?\d*,\d+(?:e[-+]?\d+)?$/i;

/** Nobody reads more of them. */
const MOST_PROBLEMS = 1000;
const tooMany = `the table has more than ${MOST_PROBLEMS} problems: the rest is not listed; correct these first`;

/** Reader of the cells of one row; problems go to the table's list. */
export function cellReader(row: SheetRow, table: SheetTable, style: NumberStyle): CellReader {
  const { source, problems } = table;
  const wrong = (column: string, message: string): void => {
    if (problems.length < MOST_PROBLEMS) problems.push({ source, line: row.line, column, message } satisfies Problem);
    else if (problems.length === MOST_PROBLEMS) problems.push({ source, message: tooMany });
  };
  return {
    wrong,
    isEmpty: (column) => !row.cells.has(column),
    text(column) {
      const cell = row.cells.get(column);
      if (cell === undefined) return null;
      // A line break inside a quoted note is text; an escape sequence in a label is not.
      if (!/(?![\n\t])\p{Cc}/u.test(cell)) return cell;
      wrong(column, `the cell contains a control character: type it anew, not ${JSON.stringify(cell.slice(0, 60))}`);
      return null;
    },
    number(column, range = {}) {
      const cell = row.cells.get(column);
      if (cell === undefined) return null;
      const shown = JSON.stringify(cell.length > 60 ? `${cell.slice(0, 57)}…` : cell);
      const value = toNumber(cell, style);
      if (typeof value === "string") {
        wrong(column, `${value}, not ${shown}`);
        return null;
      }
      const allowed = rangeProblem(value, range);
      if (allowed === null) return value;
      wrong(column, `the number must be ${allowed}, not ${shown}`);
      return null;
    },
  };
}

function toNumber(cell: string, { decimalMark, commaRefused }: NumberStyle): number | string {
  const written = cell.replace("\u2212", "-");
  const value = point.test(written)
    ? Number(written)
    : comma.test(written) && decimalMark === ","
      ? Number(written.replace(",", "."))
      : Number.NaN;
  if (Number.isFinite(value)) return value;
  if (comma.test(written) && commaRefused !== undefined) return commaRefused;
  return "write a plain number, or leave the cell empty where it is not known";
}

function rangeProblem(
  value: number,
  { min, max, above, below }: { min?: number; max?: number; above?: number; below?: number },
): string | null {
  if ((min === undefined || value >= min) && (max === undefined || value <= max)) {
    if ((above === undefined || value > above) && (below === undefined || value < below)) return null;
  }
  const low = min !== undefined ? `at least ${min}` : above !== undefined ? `above ${above}` : "";
  const high = max !== undefined ? `at most ${max}` : below !== undefined ? `below ${below}` : "";
  return [low, high].filter(Boolean).join(" and ");
}
