import type { Block } from "./findBlocks.ts";
import type { Text } from "./openText.ts";
import { oddReasons } from "./readOddLine.ts";
import type { Scan } from "./scanRows.ts";
import type { DroppedRows } from "./types.ts";

/** How many line numbers are named. */
const named = 5;

/** Reasons that cost no reading. */
export const harmless: string[] = ["text after the table", "text inside the table", "repeated heading"];

/** Lines and rows that do not become readings, with the reason; and the 1-based line of every row. */
export function collectDropped(
  text: Text,
  { rows, gaps }: Scan,
  { blocks, series }: { blocks: Block[]; series: Block[] },
): { dropped: DroppedRows[]; lines: Uint32Array } {
  const found = new Map<string, DroppedRows>();
  const add = (reason: string, line: number): void => {
    const entry = found.get(reason) ?? { reason, count: 0, lines: [] };
    entry.count++;
    if (entry.lines.length < named) entry.lines.push(line);
    found.set(reason, entry);
  };
  const start = series[0]!.first;
  const stop = series.at(-1)!.end;
  const headings = new Set(
    series.slice(1).flatMap(({ heading, gaps: above }) => heading?.used.map((i) => above[i]!.line) ?? []),
  );
  // Above the first row only what stands below the heading can have been a reading.
  const { heading, gaps: above } = series[0]!;
  const headingLine = heading === null ? 0 : Math.max(...heading.used.map((i) => above[i]!.line));
  let otherTable = false;
  for (const [i, { reason, line, row, to }] of gaps.entries()) {
    // Rows of another width that begin below a text or a blank line are a table of their own.
    const before = gaps[i - 1];
    const follows = before !== undefined && before.line === line - 1 && before.row === row;
    const begins = follows && (before.reason === null || before.reason === "text") && gaps[i + 1]?.reason === reason;
    otherTable = reason === oddReasons.count && (begins || (follows && otherTable));
    if (otherTable && row > start) {
      add("row of another table", line);
      continue;
    }
    if (reason === null || (row <= start && (reason === "text" || line < headingLine))) continue;
    if (headings.has(line)) add("repeated heading", line);
    else if (reason === "text") add(row >= stop ? "text after the table" : "text inside the table", line);
    else add(to >= text.end && row === rows ? "incomplete last line" : reason, line);
  }
  const lines = lineNumbers(rows, gaps);
  const own = new Set(series);
  for (const block of blocks) {
    if (own.has(block)) continue;
    for (let row = block.first; row < block.end; row++) add("row of another table", lines[row]!);
  }
  return { dropped: [...found.values()], lines };
}

/** Every row stands below the rows and the other lines before it. */
function lineNumbers(rows: number, gaps: Scan["gaps"]): Uint32Array {
  const lines = new Uint32Array(rows);
  let gap = 0;
  for (let row = 0; row < rows; row++) {
    while (gap < gaps.length && gaps[gap]!.row <= row) gap++;
    lines[row] = row + gap + 1;
  }
  return lines;
}
