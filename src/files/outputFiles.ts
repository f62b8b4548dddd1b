import { campaignPieces } from "../render/campaignJson.ts";
import { indexedTables } from "./indexedTables.ts";
import type { IndexedFolder } from "./indexFolder.ts";
import { packageFile } from "./packageFile.ts";
import type { OutputFile } from "./writeOutputs.ts";

/**
 * The files of an output folder, for `writeOutputs`. campaign.json comes last: where it is new, everything is. datapackage.json
 * describes these files: tables of an earlier comparison are not of this campaign, until it is compared again.
 *
 * @param further Files of the same folder that no table describes, such as figures and the report. @default none
 *
 * @example
 * ```ts
 * import { indexFolder, outputFiles } from "tg-hydrates/node";
 * const names = outputFiles(await indexFolder("fixtures/example")).map(({ name }) => name);
 * if (!names.includes("ages.csv") || names.at(-1) !== "campaign.json") throw new Error("campaign.json last");
 * ```
 */
export function outputFiles(
  { campaign, written }: Pick<IndexedFolder, "campaign" | "written">,
  further: readonly OutputFile[] = [],
): OutputFile[] {
  const files: OutputFile[] = [
    ...indexedTables(campaign),
    { name: "curves.ndjson", content: written.curves },
    { name: "campaign.json", content: campaignPieces(campaign, written.runs) },
  ];
  return [...files.slice(0, -1), ...further, packageFile(campaign, files), ...files.slice(-1)];
}
