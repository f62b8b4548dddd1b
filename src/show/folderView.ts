import type { IndexedFolder } from "../files/indexFolder.ts";
import { campaignView } from "./campaignView.ts";
import type { Lines, ShowOptions, View } from "./types.ts";

/** The per-age table of a folder, and what stood in the way: failed runs with their reasons, remarks on the sheet. */
export function folderView({ campaign, plan, stacks }: IndexedFolder, options: ShowOptions = {}): View {
  const part = (heading: string, lines: readonly string[]): Lines[] => (lines.length === 0 ? [] : [{ heading, lines }]);
  return [
    ...campaignView(campaign, options),
    ...part(
      "Failed runs",
      campaign.runs.flatMap((run) => (run.status === "failed" ? [run.error.message] : [])),
    ),
    ...part(
      "Remarks on run sheet and mix table",
      plan.remarks.map(
        ({ source, line, message }) => `${source}${line === undefined ? "" : `, line ${line}`}: ${message}`,
      ),
    ),
    ...part("Files that the run sheet leaves out", plan.unlisted),
    ...part("Errors of this program", stacks),
  ];
}
