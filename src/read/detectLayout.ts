import { fits } from "./fits.ts";
import { type FixedWidth, fixedWidth } from "./fixedWidth.ts";
import { isDoubtful } from "./isDoubtful.ts";
import { type Cell, readCell } from "./readCell.ts";
import { splitCells } from "./splitCells.ts";
import type { CellKind } from "./types.ts";

/** How a table is written. */
export interface Layout {
  delimiter: "\t" | ";" | "," | "|" | " ";
  decimalMark: "." | ",";
  kinds: CellKind[];
  /** Unit written in the cells of each column; empty where there is none. */
  units: string[];
  /** Where the columns stand, for tables of fixed width. */
  fixed: FixedWidth | null;
  /** Share of the lines looked at that have this layout. */
  share: number;
  /** Mean length of these lines, bytes or units. */
  lineLength: number;
}

interface Trial extends Layout {
  rows: number;
  /** Marks of this layout that more probably mean something else: thousands separators, words. */
  doubts: number;
}

/** A line split under a trial layout. */
interface Line {
  cells: (Cell | null)[];
  numbers: number;
  raw: number;
  text: string;
}

/** Most columns a table can have. */
const mostColumns = 256;

const delimiters: Layout["delimiter"][] = ["\t", ";", "|", ",", " "];

/**
 * The delimiter and the decimal mark under which most lines split into the same number (≥ 2) of numeric cells; null where
 * no two lines do. Layouts without text columns and without thousands separators are preferred.
 */
export function detectLayout(lines: string[]): Layout | null {
  let best: Trial | null = null;
  for (const delimiter of delimiters) {
    for (const mark of [".", ","] as const) {
      const trial = tryLayout(lines, delimiter, mark);
      if (trial !== null && (best === null || isBetter(trial, best))) best = trial;
      // Nothing can be better than every line without a doubt.
      if (best !== null && best.rows === lines.length && best.rows >= 2 && best.doubts === 0) return best;
    }
  }
  return best === null || best.rows < 2 ? null : best;
}

function isBetter(a: Trial, b: Trial): boolean {
  // A layout that explains far fewer lines is no rival, however tidy.
  if (a.rows < 0.8 * b.rows) return false;
  if (b.rows < 0.8 * a.rows) return true;
  if (a.doubts !== b.doubts) return a.doubts < b.doubts;
  // Of delimiters that explain about the same the stronger one is meant (a tab is a blank too).
  return a.rows > (a.delimiter === b.delimiter ? b.rows : 1.1 * b.rows);
}

function tryLayout(lines: string[], delimiter: Layout["delimiter"], decimalMark: Layout["decimalMark"]): Trial | null {
  // Without the decimal mark the other layout says the same.
  if (decimalMark === "," && !lines.some((line) => line.includes(","))) return null;
  const split: Line[] = [];
  for (const text of lines) {
    if (delimiter !== " " && !text.includes(delimiter)) continue;
    const written = splitCells(text, delimiter);
    let filled = written.length;
    while (filled > 0 && written[filled - 1] === "") filled--;
    if (filled < 2 || filled > mostColumns) continue;
    const cells = written.slice(0, filled).map((cell) => (cell === "" ? null : readCell(cell, decimalMark)));
    const numbers = cells.filter((cell) => cell !== null && isNumeric(cell.kind)).length;
    if (numbers >= 2) split.push({ cells, numbers, raw: written.length, text });
  }
  const count = columnCount(split);
  if (count === null) return null;
  const rows = split.filter(({ cells, raw }) => cells.length === count || (cells.length < count && raw >= count));
  const kinds = columnKinds(rows, count);
  const fitting = rows.filter(({ cells }) => cells.every((cell, i) => fits(cell?.kind ?? "missing", kinds[i]!)));
  if (fitting.length === 0 || kinds.filter(isNumeric).length < 2) return null;
  const columns = kinds.map((_, i) => fitting.map(({ cells }) => cells[i] ?? null));
  return {
    delimiter,
    decimalMark,
    kinds,
    units: columns.map(commonUnit),
    fixed:
      delimiter === " "
        ? fixedWidth(fitting.filter(({ cells }) => cells.length === count).map(({ text }) => text))
        : null,
    share: fitting.length / lines.length,
    lineLength: fitting.reduce((sum, { text }) => sum + text.length, 0) / fitting.length,
    rows: fitting.length,
    doubts: 10 * kinds.filter((kind) => kind === "text").length + columns.filter(isDoubtful).length,
  };
}

/**
 * Columns: the commonest number of cells. Rows whose last cells are empty end early; where their delimiters are there, the
 * longer number is meant.
 */
function columnCount(lines: Line[]): number | null {
  const byCount = new Map<number, number>();
  for (const { cells } of lines) byCount.set(cells.length, (byCount.get(cells.length) ?? 0) + 1);
  let count = mode(byCount);
  for (const longer of [...byCount.keys()].sort((a, b) => a - b)) {
    if (count === null || longer <= count) continue;
    const short = lines.filter(({ cells }) => cells.length === count);
    if (short.every(({ raw }) => raw >= longer)) count = longer;
  }
  return count;
}

function columnKinds(rows: Line[], count: number): CellKind[] {
  return Array.from({ length: count }, (_, i) => {
    const seen = new Map<CellKind, number>();
    for (const { cells } of rows) {
      const kind = cells[i]?.kind;
      if (kind !== undefined && kind !== "missing") seen.set(kind, (seen.get(kind) ?? 0) + 1);
    }
    // Minutes and seconds grow into hours, minutes and seconds.
    if (seen.has("clock") && seen.has("short-clock")) return "clock";
    // Where no cell of the sample holds anything, numbers may still come elsewhere.
    return mode(seen) ?? "empty";
  });
}

function isNumeric(kind: string): boolean {
  return kind === "number" || kind === "date" || kind.endsWith("clock");
}

/** The unit behind most numbers of a column; empty where most have none. */
function commonUnit(cells: (Cell | null)[]): string {
  const counts = new Map<string, number>();
  for (const cell of cells) {
    if (cell?.kind === "number") counts.set(cell.unit, (counts.get(cell.unit) ?? 0) + 1);
  }
  return mode(counts) ?? "";
}

/** The key with the highest count; the first of equals. */
function mode<K>(counts: Map<K, number>): K | null {
  let best: K | null = null;
  let most = 0;
  for (const [key, count] of counts) {
    if (count > most) {
      best = key;
      most = count;
    }
  }
  return best;
}
