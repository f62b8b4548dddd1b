/**
 * Splits a line into trimmed cells. Blanks as delimiter: any run of blanks and tabs is one. Quoted cells lose their quotes;
 * a doubled quote inside is one; a quote that is never closed ends with the line.
 *
 * @example
 * ```ts
 * splitCells('"0,5";12', ";"); // ["0,5", "12"]
 * ```
 */
export function splitCells(line: string, delimiter: string): string[] {
  const blank = delimiter === " ";
  if (!line.includes('"')) {
    if (!blank) return line.split(delimiter).map(trim);
    const trimmed = trim(line);
    return trimmed === "" ? [] : trimmed.split(/[ \t\u00a0\u3000]+/);
  }
  const text = blank ? trim(line).replaceAll("\t", " ") : line;
  const cells: string[] = [];
  let at = 0;
  while (at <= text.length) {
    const first = skipBlanks(text, at);
    if (blank) at = first;
    const { cell, end } = text[first] === '"' ? quoted(text, at, delimiter) : bare(text, at, delimiter);
    if (!blank || cell !== "") cells.push(cell);
    at = end + 1;
  }
  return cells;
}

/** A cell, and the index of the delimiter behind it (or of the end of the line). */
interface Piece {
  cell: string;
  end: number;
}

function bare(text: string, at: number, delimiter: string): Piece {
  const end = nextDelimiter(text, at, delimiter);
  return { cell: trim(text.slice(at, end)), end };
}

function quoted(text: string, at: number, delimiter: string): Piece {
  const open = skipBlanks(text, at) + 1;
  let close = text.indexOf('"', open);
  while (close >= 0 && text[close + 1] === '"') close = text.indexOf('"', close + 2);
  if (close < 0) close = text.length;
  const end = nextDelimiter(text, close + 1, delimiter);
  const inside = text.slice(open, close).replaceAll('""', '"');
  // Nothing should stand between the closing quote and the delimiter; if it does it is kept.
  return { cell: trim(inside + text.slice(close + 1, end)), end };
}

function skipBlanks(text: string, at: number): number {
  let i = at;
  while (text[i] === " ") i++;
  return i;
}

function nextDelimiter(text: string, at: number, delimiter: string): number {
  const next = text.indexOf(delimiter, at);
  return next < 0 ? text.length : next;
}

/** Blanks, padding NULs and byte-order marks at both ends. */
function trim(text: string): string {
  // A byte-order mark is white space to `trim`.
  return text.includes("\0") ? text.replaceAll("\0", " ").trim() : text.trim();
}
