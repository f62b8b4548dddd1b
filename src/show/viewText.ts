import { terminalSafe } from "../render/terminalSafe.ts";
import { textTable } from "../render/textTable.ts";
import type { Grid, Lines, View } from "./types.ts";

/** A view as lines for a terminal, each ending in `\n`; labels cannot move the cursor or break a line. */
export function viewText(view: View): string {
  return view
    .map((part) => ("columns" in part ? gridLines(part) : sentences(part)))
    .map((lines) => lines.map((line) => `${line}\n`).join(""))
    .join("\n");
}

function gridLines({ caption, columns, rows }: Grid): string[] {
  const safe = columns.map((column) => ({ ...column, heading: terminalSafe(column.heading) }));
  const lines = textTable(
    safe,
    rows.map((row) => row.map(terminalSafe)),
  );
  return [terminalSafe(caption), ...(rows.length === 0 ? [] : lines)];
}

function sentences({ heading, lines }: Lines): string[] {
  return [...(heading === undefined ? [] : [heading]), ...lines].map(terminalSafe);
}
