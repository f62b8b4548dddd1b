import type { Layout } from "./detectLayout.ts";
import { lineEnd } from "./lineEnd.ts";
import type { Text } from "./openText.ts";
import { type HeadingRows, readHeading } from "./readHeading.ts";
import type { Gap, Scan } from "./scanRows.ts";

/** Rows between two pieces of text. */
export interface Block {
  /** First row and one past the last. */
  first: number;
  end: number;
  /** Heading directly above; null where there is none. */
  heading: HeadingRows | null;
  /** The lines above it that are no rows. */
  gaps: Gap[];
}

/** Of a heading line this much is read, bytes. */
const longest = 40_000;
/** Most lines above a block in which its heading is looked for. */
const nearest = 60;

/** Parts the rows of a text where text stands between them. */
export function findBlocks(text: Text, layout: Layout, { rows, gaps }: Scan): Block[] {
  const blocks: Block[] = [];
  let above: Gap[] = [];
  const close = (first: number, end: number): void => {
    // Rows that can't be read are no headings; what stands above them may be one.
    const near = [...above.keys()]
      .filter((i) => above[i]!.reason === null || above[i]!.reason === "text")
      .slice(-nearest);
    const lines = near.map((i) => text.decode(above[i]!.from, Math.min(above[i]!.to, above[i]!.from + longest)));
    const heading = lines.length === 0 ? null : readHeading(lines, layout, lineAfter(text, above.at(-1)!));
    heading?.used.forEach((line, i) => {
      heading.used[i] = near[line]!;
    });
    blocks.push({ first, end, heading, gaps: above });
    above = [];
  };
  let first = 0;
  for (const gap of gaps) {
    if (gap.row > first && gap.reason === "text") {
      close(first, gap.row);
      first = gap.row;
    }
    if (gap.row === first) above.push(gap);
  }
  if (rows > first) close(first, rows);
  return blocks;
}

function lineAfter(text: Text, { to }: Gap): string {
  const { bytes, end } = text;
  const from = bytes[to] === 13 && bytes[to + 1] === 10 ? to + 2 : to + 1;
  return from >= end ? "" : text.decode(from, Math.min(lineEnd(text, from), from + longest));
}
