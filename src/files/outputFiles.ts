import { campaignJson } from "../render/campaignJson.ts";
import { curvesNdjson } from "../render/curvesNdjson.ts";
import { indexedTables } from "./indexedTables.ts";
import type { IndexedFolder } from "./indexFolder.ts";
import { packageFile } from "./packageFile.ts";
import type { OutputFile } from "./writeOutputs.ts";

/**
 * The files of an output folder, for `writeOutputs`. campaign.json comes last: where it is new, everything is. datapackage.json
 * describes these files: tables of an earlier comparison are not of this campaign, until it is compared again.
 */
export function outputFiles({ campaign, sketches }: Pick<IndexedFolder, "campaign" | "sketches">): OutputFile[] {
  const files: OutputFile[] = [
    ...indexedTables(campaign),
    { name: "curves.ndjson", content: curvesNdjson(sketches) },
    { name: "campaign.json", content: campaignJson(campaign) },
  ];
  return [...files.slice(0, -1), packageFile(campaign, files), ...files.slice(-1)];
}
