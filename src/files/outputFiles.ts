import { agesCsv } from "../render/agesCsv.ts";
import { campaignJson } from "../render/campaignJson.ts";
import { curvesNdjson } from "../render/curvesNdjson.ts";
import { lossesCsv } from "../render/lossesCsv.ts";
import { phasesCsv } from "../render/phasesCsv.ts";
import { runsCsv } from "../render/runsCsv.ts";
import type { IndexedFolder } from "./indexFolder.ts";
import type { OutputFile } from "./writeOutputs.ts";

/**
 * The files of an output folder, for `writeOutputs`. campaign.json comes last: where it is new, everything is.
 *
 * @example
 * ```ts
 * import { indexFolder, outputFiles } from "tg-hydrates/node";
 * const names = outputFiles(await indexFolder("fixtures/example")).map(({ name }) => name);
 * if (!names.includes("ages.csv") || names.at(-1) !== "campaign.json") throw new Error("campaign.json last");
 * ```
 */
export function outputFiles({ campaign, sketches }: Pick<IndexedFolder, "campaign" | "sketches">): OutputFile[] {
  return [
    { name: "runs.csv", content: runsCsv(campaign) },
    { name: "losses.csv", content: lossesCsv(campaign) },
    { name: "phases.csv", content: phasesCsv(campaign) },
    { name: "ages.csv", content: agesCsv(campaign) },
    { name: "curves.ndjson", content: curvesNdjson(sketches) },
    { name: "campaign.json", content: campaignJson(campaign) },
  ];
}
