import type { Block } from "./findBlocks.ts";
import type { HeadingRows } from "./readHeading.ts";

/**
 * The blocks of the run: those with the same heading, or none of their own, are one table; the one with most rows counts.
 * Rows above the first heading are no part of the table below it.
 */
export function mainSeries(blocks: Block[]): Block[] {
  const all = new Map<string, { blocks: Block[]; rows: number }>();
  let sign = "";
  for (const block of blocks) {
    if (block.heading !== null) sign = signOf(block.heading);
    const series = all.get(sign) ?? { blocks: [], rows: 0 };
    series.blocks.push(block);
    series.rows += block.end - block.first;
    all.set(sign, series);
  }
  return [...all.values()].reduce((best, series) => (series.rows > best.rows ? series : best)).blocks;
}

function signOf({ headings }: HeadingRows): string {
  return headings
    .map(({ name, unit }) => `${name}\t${unit}`)
    .join("\n")
    .toLowerCase();
}
