import type { Campaign } from "../campaign/types.ts";
import { campaignJson } from "../render/campaignJson.ts";
import { contrastsCsv } from "../render/contrastsCsv.ts";
import { growthCsv } from "../render/growthCsv.ts";
import { planningCsv } from "../render/planningCsv.ts";
import { propertiesCsv } from "../render/propertiesCsv.ts";
import { sufficientCsv } from "../render/sufficientCsv.ts";
import { pairsCsv, togetherCsv } from "../render/togetherCsv.ts";
import type { OutputFile } from "./writeOutputs.ts";

/**
 * The files that a comparison writes, for `writeOutputs`; none without decisions. campaign.json comes last.
 *
 * @example
 * ```ts
 * import { compare, decisionFiles, indexFolder } from "tg-hydrates/node";
 * const { campaign } = await indexFolder("fixtures/example");
 * const files = decisionFiles({ ...campaign, decisions: compare(campaign, { reference: "sealed" }) });
 * if (files.at(-1)!.name !== "campaign.json" || decisionFiles(campaign).length !== 0) throw new Error("campaign.json last");
 * ```
 */
export function decisionFiles(campaign: Campaign): OutputFile[] {
  const { decisions } = campaign;
  if (decisions === undefined) return [];
  return [
    { name: "contrasts.csv", content: contrastsCsv(decisions.contrasts) },
    { name: "growth.csv", content: growthCsv(decisions.growth) },
    { name: "properties.csv", content: propertiesCsv(decisions.properties) },
    { name: "together.csv", content: togetherCsv(decisions.together) },
    { name: "pairs.csv", content: pairsCsv(decisions.pairs) },
    { name: "sufficient.csv", content: sufficientCsv(decisions.sufficient) },
    { name: "planning.csv", content: planningCsv(decisions.planning) },
    { name: "campaign.json", content: campaignJson(campaign) },
  ];
}
