import { checkTable } from "./checkTable.ts";
import { collectDropped } from "./collectDropped.ts";
import { detectLayout, type Layout } from "./detectLayout.ts";
import { dropCutLine } from "./dropCutLine.ts";
import type { Block } from "./findBlocks.ts";
import { findBlocks } from "./findBlocks.ts";
import { mainSeries } from "./mainSeries.ts";
import { noTable } from "./noTable.ts";
import { openText, type Text } from "./openText.ts";
import { readPreamble } from "./readPreamble.ts";
import { mostSampled, sampleLines } from "./sampleLines.ts";
import { type Gap, scanRows } from "./scanRows.ts";
import type { Table } from "./types.ts";

/** Share of the sampled lines that must have the layout found; otherwise all lines are looked at. */
const convincing = 0.6;
/** Of a line of the preamble this much is read. */
const longest = 4000;

/**
 * Finds the table of a file: the lines that split, by one delimiter and one decimal mark, into the same number (≥ 2) of
 * numeric cells, with the names and units above them. Tables of the same columns that follow one another are joined.
 *
 * @returns the numbers as written, column by column, with names and units in the file's own words
 * @throws UnreadableError where there is no table (`empty-file`, `binary-file`, `too-large`, `not-a-table`, `one-column`,
 * `no-table`) or its cells can't be told (`comma-delimiter`, `broken-table`)
 * @example
 * ```ts
 * import { readTable } from "tg-hydrates";
 * const { columns } = readTable(new TextEncoder().encode("T/°C;m/mg\n25,0;10,01\n26,0;10,00\n"));
 * if (columns[1]!.name !== "m" || columns[1]!.unit !== "mg") throw new Error("name and unit stand in the heading");
 * ```
 */
export function readTable(bytes: Uint8Array, options: { name?: string } = {}): Table {
  const { name = "run" } = options;
  const text = openText(bytes, name);
  const layout = layoutOf(text);
  const scan = layout === null ? null : dropCutLine(text, layout, scanRows(text, layout));
  if (layout === null || scan === null || scan.rows < 2) throw noTable(text);
  const blocks = findBlocks(text, layout, scan);
  const series = mainSeries(blocks);
  const { first, heading, gaps } = series[0]!;
  const { dropped, lines } = collectDropped(text, scan, { blocks, series });
  checkTable(text, layout, { scan, series, dropped });
  const rows = series.reduce((sum, block) => sum + block.end - block.first, 0);
  const kept = layout.kinds.flatMap((kind, i) => {
    const { name: written, unit } = heading?.headings[i] ?? { name: "", unit: "" };
    // A delimiter at either end of the rows makes an empty column without a name.
    const isNothing = kind === "empty" && written === "" && unit === "" && isEmpty(scan.columns[i]!, scan.rows);
    return isNothing ? [] : [{ i, kind, name: written, unit }];
  });
  const around: Gap[] = [
    ...blocks.filter((block) => block.end <= first).flatMap((block) => block.gaps),
    ...gaps.filter((_, i) => heading === null || !heading.used.includes(i)),
    ...scan.gaps.filter(({ row }) => row >= scan.rows),
  ];
  return {
    source: { name },
    encoding: text.encoding,
    delimiter: layout.delimiter,
    decimalMark: layout.decimalMark,
    columns: kept.map(({ i, name: written, unit }, k) => ({
      number: k + 1,
      name: written,
      // A unit behind every number goes before one in the heading.
      unit: layout.units[i] === "" ? unit : layout.units[i]!,
    })),
    cells: kept.map(({ kind }) => kind),
    values: kept.map(({ i }) => gather(scan.columns[i]!, series, rows)),
    lines: gather(lines, series, rows),
    metadata: readPreamble(
      around
        .filter(({ reason }) => reason !== null)
        .map(({ from, to }) => text.decode(from, Math.min(to, from + longest))),
    ),
    dropped,
    decimals: kept.map(({ i }) => scan.decimals[i]!),
  };
}

/** The layout of lines from all over the file; of all lines where those don't agree. */
function layoutOf(text: Text): Layout | null {
  const sampled = detectLayout(sampleLines(text));
  if (sampled !== null && sampled.share >= convincing) return sampled;
  const lines = sampleLines(text, { everything: true });
  const complete = detectLayout(lines);
  // Of a very long text even this is only the beginning.
  const isBetter = complete !== null && (lines.length < mostSampled || complete.share >= (sampled?.share ?? 0));
  return isBetter ? complete : sampled;
}

/** The rows of a series, one after another; a view where they already are. */
function gather<A extends Float64Array | Uint32Array>(values: A, series: Block[], rows: number): A {
  const start = series[0]!.first;
  if (series.at(-1)!.end - start === rows) return values.subarray(start, start + rows) as A;
  const all = values.slice(0, rows) as A;
  let at = 0;
  for (const { first, end } of series) {
    all.set(values.subarray(first, end), at);
    at += end - first;
  }
  return all;
}

/** What the sample showed to be empty can have numbers elsewhere. */
function isEmpty(values: Float64Array, rows: number): boolean {
  for (let row = 0; row < rows; row++) if (!Number.isNaN(values[row]!)) return false;
  return true;
}
