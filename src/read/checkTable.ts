import { UnreadableError } from "../errors.ts";
import type { Layout } from "./detectLayout.ts";
import type { Block } from "./findBlocks.ts";
import { noTable } from "./noTable.ts";
import type { Text } from "./openText.ts";
import { oddReasons } from "./readOddLine.ts";
import { recogniseName } from "./recogniseName.ts";
import { sampleLines } from "./sampleLines.ts";
import type { Scan } from "./scanRows.ts";
import { splitCells } from "./splitCells.ts";
import { splitHeading } from "./splitHeading.ts";
import type { DroppedRows } from "./types.ts";

/** Share of unreadable lines among the rows of a table above which nothing in it can be trusted; common sense, no source. */
const mostUnreadable = 0.2;
/** So many unreadable lines are never too many. */
const fewUnreadable = 5;

/**
 * Refuses a table that can only be misread: commas that both delimit and mark decimals, or too many unreadable rows.
 *
 * @throws UnreadableError `comma-delimiter`, `broken-table`
 */
export function checkTable(
  text: Text,
  layout: Layout,
  { scan, series, dropped }: { scan: Scan; series: Block[]; dropped: DroppedRows[] },
): void {
  if (layout.delimiter === "," && series[0]!.heading === null && scan.decimals.every((decimals) => decimals === 0)) {
    refuseCommas(text, layout, series[0]!);
  }
  const rows = series.reduce((sum, { first, end }) => sum + end - first, 0);
  const unreadable = dropped.filter(({ reason }) => (Object.values(oddReasons) as string[]).includes(reason));
  const count = unreadable.reduce((sum, entry) => sum + entry.count, 0);
  if (count > fewUnreadable && count > mostUnreadable * (rows + count)) {
    const worst = unreadable.reduce((a, b) => (b.count > a.count ? b : a));
    const message = `${count} of ${rows + count} lines of the table can't be read (${worst.reason}). Export the run again; all its rows must be written alike.`;
    throw new UnreadableError("broken-table", message, { source: text.name, line: worst.lines[0]! });
  }
}

/** Whole numbers only, and no heading with as many names: `25,0,10,5` is two numbers, or four. */
function refuseCommas(text: Text, layout: Layout, { gaps }: Block): void {
  const count = layout.kinds.length;
  const heading = gaps.find(({ from, to }) => {
    const names = splitCells(text.decode(from, Math.min(to, from + 10_000)), ",").filter((name) => name !== "");
    return (
      names.length >= 2 &&
      names.length < count &&
      names.every((name) => recogniseName(splitHeading(name).name) !== null)
    );
  });
  // Decimals can begin with a zero, whole numbers can't.
  const hasDecimals = sampleLines(text).some((line) => /^[\d,\s+-]+$/.test(line) && /,0\d/.test(line));
  if (heading === undefined && !hasDecimals) return;
  if (count === 2) throw noTable(text);
  const message =
    "The comma is both the delimiter and the decimal mark, so the numbers can't be told apart. Export with semicolons or tabs between the columns, or with decimal points.";
  const line = (gaps.at(-1)?.line ?? 0) + 1;
  throw new UnreadableError("comma-delimiter", message, { source: text.name, line });
}
