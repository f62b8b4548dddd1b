import type { Layout } from "./detectLayout.ts";
import { lineEnd } from "./lineEnd.ts";
import type { Text } from "./openText.ts";
import { readCell } from "./readCell.ts";
import type { Scan } from "./scanRows.ts";
import { splitCells } from "./splitCells.ts";

/** How many rows before the last show how its last number should look. */
const compared = 8;

/**
 * A file that was cut off can end inside a number: 10.1234 becomes 10.1. Where no line break ends the file, and the last number
 * has fewer decimals than those above it, which all have the same, the last row is left out and told.
 */
export function dropCutLine(text: Text, layout: Layout, scan: Scan): Scan {
  const { bytes, end } = text;
  const last = bytes[end - 1];
  if (scan.rows <= compared || last === 10 || last === 13 || scan.gaps.at(-1)?.to === end) return scan;
  let from = end;
  const lines: string[] = [];
  for (let to = end; lines.length <= compared && to > 0; to = from - 1) {
    from = to;
    while (from > 0 && bytes[from - 1] !== 10 && bytes[from - 1] !== 13) from--;
    if (to - from > 10_000) return scan;
    if (from < to) lines.push(text.decode(from, to));
  }
  const [ending, ...before] = lines.map((line) => {
    const cell = readCell(splitCells(line, layout.delimiter).at(-1) ?? "", layout.decimalMark);
    return cell.kind === "number" && !cell.scientific ? cell.decimals : null;
  });
  const decimals = before[0];
  const alike = decimals != null && before.every((other) => other === decimals);
  if (!alike || ending == null || ending >= decimals) return scan;
  let start = end;
  while (start > 0 && bytes[start - 1] !== 10 && bytes[start - 1] !== 13) start--;
  const line = scan.rows + scan.gaps.length;
  const gap = { reason: "incomplete last line", line, from: start, to: lineEnd(text, start), row: scan.rows - 1 };
  return { ...scan, rows: scan.rows - 1, gaps: [...scan.gaps, gap] };
}
