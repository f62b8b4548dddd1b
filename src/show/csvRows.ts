/// <reference path="../papaparse.d.ts" />
import Papa from "papaparse/papaparse.min.js";
import type { Row } from "./gridOf.ts";
import { shortNumber } from "./shortNumber.ts";

/**
 * The rows of a CSV text (comma, semicolon or tab; RFC 4180) by the names of its heading, or null for a text that is no such
 * table: every row must have as many cells as the heading, and that at least two. Long decimal numbers are shortened.
 */
export function csvRows(text: string): Row[] | null {
  const body = text.replace(/^\uFEFF/, "").replaceAll(/\r\n?/g, "\n");
  if (!body.includes("\n")) return null;
  for (const delimiter of [",", ";", "\t"]) {
    const { data, errors } = Papa.parse(body, { delimiter, newline: "\n" });
    const [heading = [], ...rows] = data.filter((cells) => cells.length > 1 || cells[0] !== "");
    if (errors.length > 0 || heading.length < 2 || rows.some((cells) => cells.length !== heading.length)) continue;
    const names = distinct(heading.map((name) => name.trim()));
    return rows.map((cells) => Object.fromEntries(cells.map((cell, i) => [names[i], shortened(cell)])));
  }
  return null;
}

/** Columns of one name would be one. */
function distinct(names: readonly string[]): string[] {
  return names.map((name, i) => {
    const before = names.slice(0, i).filter((other) => other === name).length;
    return before === 0 && name !== "" ? name : `${name}(${i + 1})`;
  });
}

function shortened(cell: string): string {
  return /^-?\d+\.\d{5,}$/.test(cell) ? shortNumber(Number(cell)) : cell;
}
