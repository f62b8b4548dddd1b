import { existsSync, lstatSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { Campaign } from "../campaign/types.ts";
import { campaignJson } from "../render/campaignJson.ts";
import { contrastsCsv } from "../render/contrastsCsv.ts";
import { growthCsv } from "../render/growthCsv.ts";
import { pairsCsv } from "../render/pairsCsv.ts";
import { planningCsv } from "../render/planningCsv.ts";
import { propertiesCsv } from "../render/propertiesCsv.ts";
import { sufficientCsv } from "../render/sufficientCsv.ts";
import { togetherCsv } from "../render/togetherCsv.ts";
import { indexedTables } from "./indexedTables.ts";
import { packageFile } from "./packageFile.ts";
import type { OutputFile } from "./writeOutputs.ts";

/**
 * The files that a comparison writes, for `writeOutputs`; none without decisions. campaign.json comes last.
 *
 * @param options `folder` that they will be written to: its datapackage.json goes on describing the tables that `index` wrote
 * there, where they are those of this campaign. @default the files written here only; `further` files of the same folder
 * that no table describes, such as figures and the report. @default none
 *
 * @example
 * ```ts
 * import { compare, decisionFiles, indexFolder } from "tg-hydrates/node";
 * const { campaign } = await indexFolder("fixtures/example");
 * const files = decisionFiles({ ...campaign, decisions: compare(campaign, { reference: "sealed" }) });
 * if (files.at(-1)!.name !== "campaign.json" || decisionFiles(campaign).length !== 0) throw new Error("campaign.json last");
 * ```
 */
export function decisionFiles(
  campaign: Campaign,
  options: { folder?: string; further?: readonly OutputFile[] } = {},
): OutputFile[] {
  const { decisions } = campaign;
  if (decisions === undefined) return [];
  const files: OutputFile[] = [
    { name: "contrasts.csv", content: contrastsCsv(decisions.contrasts) },
    { name: "growth.csv", content: growthCsv(decisions.growth) },
    { name: "properties.csv", content: propertiesCsv(decisions.properties) },
    { name: "together.csv", content: togetherCsv(decisions.together) },
    { name: "pairs.csv", content: pairsCsv(decisions.pairs) },
    { name: "sufficient.csv", content: sufficientCsv(decisions.sufficient) },
    { name: "planning.csv", content: planningCsv(decisions.planning) },
    { name: "campaign.json", content: campaignJson(campaign) },
  ];
  const { folder, further = [] } = options;
  const before = folder === undefined ? [] : indexedBefore(folder, campaign);
  return [...files.slice(0, -1), ...further, packageFile(campaign, [...before, ...files]), ...files.slice(-1)];
}

/** Files in the folder that hold this very campaign; a table of other runs, or of the user's, is none of them. */
function indexedBefore(folder: string, campaign: Campaign): OutputFile[] {
  const same = indexedTables(campaign).filter(({ name, content }) => holds(join(folder, name), content));
  const curves = same.some(({ name }) => name === "runs.csv") && existsSync(join(folder, "curves.ndjson"));
  return curves ? [...same, { name: "curves.ndjson", content: [] }] : same;
}

/** Whether a file holds just this text; a link is not followed, and a pipe or another file of any size not read. */
function holds(path: string, content: string): boolean {
  try {
    const stats = lstatSync(path);
    return stats.isFile() && stats.size === Buffer.byteLength(content) && readFileSync(path, "utf8") === content;
  } catch {
    return false;
  }
}
