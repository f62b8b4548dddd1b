import type { Layout } from "./detectLayout.ts";
import { parseUnit } from "./parseUnit.ts";
import { recogniseName } from "./recogniseName.ts";
import { type Heading, splitHeading } from "./splitHeading.ts";
import { splitHeadingLine } from "./splitHeadingLine.ts";

/** Headings of all columns of a layout, and which of the lines they stand in. */
export interface HeadingRows {
  headings: Heading[];
  /** Indices of the lines used. */
  used: number[];
}

interface Row {
  cells: string[];
  /** Indices of its lines; several where a quoted name holds a line break. */
  lines: number[];
}

/** Lines that only draw: `-----`, `|---|---|`, `=====`. */
const ruler = /^[\s\-=_+|:*~.;,"]+$/;
/** Longest unit from which brackets are taken off, characters. */
const longest = 200;
/** Names and units stand in one to three lines above the table; blank lines, rulers and remarks may stand between. */
const looked = 8;

/**
 * Finds names and units of the columns in the lines above a table: a row of names with or without units, names over two rows,
 * units in a row of their own, a row of remarks below them; null where the lines hold none.
 *
 * @param lines the lines above the first row, top to bottom
 * @param firstRow the first row, for headings set above their columns
 */
export function readHeading(lines: string[], layout: Layout, firstRow: string): HeadingRows | null {
  const rows: Row[] = [];
  const logical = joinBroken(lines);
  for (let i = logical.length - 1; i >= Math.max(0, logical.length - looked) && rows.length < 4; i--) {
    const { text, from } = logical[i]!;
    if (ruler.test(text)) continue;
    const cells = splitHeadingLine(text, layout, firstRow);
    if (cells !== null) rows.push({ cells, lines: from });
    // A remark between heading and table is passed over; above names nothing more is looked for.
    else if (rows.length > 0) break;
  }
  if (rows.length === 0) return null;
  const unitRow = findUnitRow(rows);
  if (unitRow < 0) return joinUpper(rows[0]!.cells.map(splitHeading), rows[0]!.lines, rows[1]);
  const units = rows[unitRow]!;
  const [above, under] = [rows[unitRow + 1], rows[unitRow - 1]];
  const names = under !== undefined && knownNames(under) > knownNames(above) ? under : above;
  const headings = units.cells.map((cell, i) => {
    const own = cell.length > longest ? cell : cell.replace(/^[([{<（［]\s*|\s*[)\]}>）］]$/g, "");
    const written = splitHeading(names?.cells[i] ?? "");
    if (own === "") return written;
    // "Mass (corr)" keeps what only looked like a unit.
    return { name: written.unit === "" ? written.name : names!.cells[i]!, unit: own };
  });
  const used = [...units.lines, ...(names?.lines ?? [])];
  return joinUpper(headings, used, names === above ? rows[unitRow + 2] : undefined);
}

/** Most lines that a broken name runs over. */
const broken = 4;

/** Lines in which a quote is still open go on in the next; a lone quote opens nothing. */
function joinBroken(lines: string[]): { text: string; from: number[] }[] {
  const isOpen = (text: string): boolean => text.split('"').length % 2 === 0;
  const joined: { text: string; from: number[] }[] = [];
  for (let i = 0; i < lines.length; ) {
    let text = lines[i]!;
    let end = i + 1;
    while (isOpen(text) && end < Math.min(lines.length, i + broken)) text += ` ${lines[end++]!}`;
    if (isOpen(text)) [text, end] = [lines[i]!, i + 1];
    joined.push({ text, from: Array.from({ length: end - i }, (_, k) => i + k) });
    i = end;
  }
  return joined;
}

/** Units stand right above the numbers, or with one row between them that has no units of its own: remarks, or the names. */
function findUnitRow(rows: Row[]): number {
  if (isUnitRow(rows[0]!.cells)) return 0;
  if (rows[0]!.cells.some((cell) => splitHeading(cell).unit !== "") || rows[1] === undefined) return -1;
  const filled = rows[1].cells.filter((cell) => cell !== "");
  return isUnitRow(rows[1].cells) && filled.every((cell) => parseUnit(cell) !== null) ? 1 : -1;
}

function knownNames(row: Row | undefined): number {
  return row?.cells.filter((cell) => recogniseName(cell) !== null).length ?? 0;
}

/** Names over two rows: the upper row is joined only where the lower alone does not tell temperature and mass. */
function joinUpper(headings: Heading[], used: number[], upper: Row | undefined): HeadingRows {
  if (upper === undefined || tellsApart(headings) || upper.cells.some((cell) => /[\d:=]/.test(cell))) {
    return { headings, used };
  }
  const joined = headings.map(({ name, unit }, i) => {
    const whole = `${upper.cells[i]} ${name}`.trim();
    return unit === "" ? splitHeading(whole) : { name: whole, unit };
  });
  return tellsApart(joined) ? { headings: joined, used: [...used, ...upper.lines] } : { headings, used };
}

/** Whether names tell one temperature and a mass. */
function tellsApart(headings: Heading[]): boolean {
  const meanings = headings.map(({ name }) => (name === "" ? null : recogniseName(name)));
  const temperatures = meanings.filter((meaning) => meaning?.quantity === "temperature").map((meaning) => meaning!.of);
  const rank = (["sample", undefined, "furnace", "reference", "programme"] as const).find((of) =>
    temperatures.includes(of),
  );
  return (
    temperatures.length > 0 &&
    temperatures.filter((of) => of === rank).length === 1 &&
    meanings.some((meaning) => meaning?.quantity === "mass")
  );
}

function isUnitRow(cells: string[]): boolean {
  const filled = cells.filter((cell) => cell !== "");
  const units = filled.filter((cell) => parseUnit(cell) !== null || /^\[.*\]$/.test(cell) || /^[-–—]$/.test(cell));
  // A letter that is a unit can be a symbol as well: "T m t" names, "K mg s" are units.
  const symbols = filled.filter(
    (cell) => recogniseName(cell) !== null && cell.length <= 2 && !/^(?:s|h|K|C|°C|mg|g)$/.test(cell),
  );
  return (
    filled.some((cell) => parseUnit(cell) !== null) &&
    units.length >= 0.6 * filled.length &&
    symbols.length <= filled.length / 2
  );
}
