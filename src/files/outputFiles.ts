import { campaignPieces } from "../render/campaignJson.ts";
import type { IndexedFolder } from "./indexFolder.ts";
import { indexedTables } from "./indexedTables.ts";
import { packageFile } from "./packageFile.ts";
import type { OutputFile } from "./writeOutputs.ts";

/**
 * The files of an output folder, for `writeOutputs`. campaign.json comes last: where it is new, everything is. datapackage.json
 * describes these files: tables of an earlier comparison are not of this campaign, until it is compared again.
 */
export function outputFiles({ campaign, written }: Pick<IndexedFolder, "campaign" | "written">): OutputFile[] {
  const files: OutputFile[] = [
    ...indexedTables(campaign),
    { name: "curves.ndjson", content: written.curves },
    { name: "campaign.json", content: campaignPieces(campaign, written.runs) },
  ];
  return [...files.slice(0, -1), packageFile(campaign, files), ...files.slice(-1)];
}
