import { agesCsv } from "../render/agesCsv.ts";
import { campaignPieces } from "../render/campaignJson.ts";
import { lossesCsv } from "../render/lossesCsv.ts";
import { phasesCsv } from "../render/phasesCsv.ts";
import { runsCsv } from "../render/runsCsv.ts";
import type { IndexedFolder } from "./indexFolder.ts";
import type { OutputFile } from "./writeOutputs.ts";

/** The files of an output folder, for `writeOutputs`. campaign.json comes last: where it is new, everything is. */
export function outputFiles({ campaign, written }: Pick<IndexedFolder, "campaign" | "written">): OutputFile[] {
  return [
    { name: "runs.csv", content: runsCsv(campaign) },
    { name: "losses.csv", content: lossesCsv(campaign) },
    { name: "phases.csv", content: phasesCsv(campaign) },
    { name: "ages.csv", content: agesCsv(campaign) },
    { name: "curves.ndjson", content: written.curves },
    { name: "campaign.json", content: campaignPieces(campaign, written.runs) },
  ];
}
