import { campaignView } from "./campaignView.ts";
import { csvRows } from "./csvRows.ts";
import { decisionsView } from "./decisionsView.ts";
import { folderView } from "./folderView.ts";
import { gridOf, type Row } from "./gridOf.ts";
import type { Recognised } from "./recognise.ts";
import { resultRows } from "./resultRows.ts";
import { resultView } from "./resultView.ts";
import { runView } from "./runView.ts";
import { tableRows } from "./tableRows.ts";
import type { ShowOptions, View } from "./types.ts";

/** Rows of a raw table: what it looks like, not what it holds. */
const RAW_ROWS = 10;

/** What is shown of a value that is no picture. */
export function viewOf(
  shown: Exclude<Recognised, { kind: "figures" | "curve" | "sketch" }>,
  options: ShowOptions = {},
): View {
  const grid = (rows: readonly Row[], of: string): View => [gridOf(rows, { ...options, of })];
  switch (shown.kind) {
    case "text": {
      const rows = csvRows(shown.value);
      return rows === null ? textView(shown.value, options) : grid(rows, "Table");
    }
    case "rows":
      return grid(shown.value, "Table");
    case "results":
      return grid(resultRows(shown.value), "Runs");
    case "protocol":
      return grid(shown.value.windows as unknown as Row[], `Windows of the protocol ${shown.value.name}`);
    case "table": {
      const { rows = RAW_ROWS } = options;
      const { source, encoding, lines } = shown.value;
      const some = { ...options, rows, of: `Table of ${source.name}, ${encoding}`, total: lines.length };
      return [gridOf(tableRows(shown.value, { rows }), some)];
    }
    case "run":
      return runView(shown.value, options);
    case "result":
      return resultView(shown.value, options);
    case "campaign":
      return campaignView(shown.value, options);
    case "folder":
      return folderView(shown.value, options);
    case "decisions":
      return decisionsView(shown.value, options);
  }
}

function textView(text: string, { caption }: ShowOptions): View {
  const lines = text.replace(/\n$/, "").split(/\r\n?|\n/);
  return [caption === undefined ? { lines, aligned: true } : { heading: caption, lines, aligned: true }];
}
