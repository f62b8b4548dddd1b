import { closeSync, openSync, readSync } from "node:fs";
import { columnNames } from "../render/columnNames.ts";
import { tables } from "../render/tables.ts";

/** The first line of every table that this program writes. */
const headings = new Set(tables.map(({ columns }) => columnNames(columns).join(",")));
const longest = Math.max(...[...headings].map(({ length }) => length));

/**
 * Whether a file is a table of this program, whatever it is called: its first line is the heading of one, all columns of it. No
 * run has such a heading.
 */
export function isOutputTable(path: string): boolean {
  try {
    const file = openSync(path, "r");
    try {
      const bytes = new Uint8Array(longest + 8);
      const text = new TextDecoder().decode(bytes.subarray(0, readSync(file, bytes, 0, bytes.length, 0)));
      return headings.has(text.split(/\r?\n/, 1)[0]!);
    } finally {
      closeSync(file);
    }
  } catch {
    // What cannot be read is told when its turn as a run comes.
    return false;
  }
}
