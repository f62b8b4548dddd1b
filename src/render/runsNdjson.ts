import type { Campaign } from "../campaign/types.ts";
import { keyOrder } from "./keyOrder.ts";
import { toJson } from "./toJson.ts";

/**
 * Every run as one line of JSON, in the order of the campaign: the objects that stand under `runs` in campaign.json, failed
 * runs too.
 *
 * @returns Line by line, so that thousands of runs need not stand in memory twice.
 */
export function* runsNdjson(campaign: Campaign): Generator<string> {
  for (const run of campaign.runs) yield `${toJson(run, keyOrder.campaign.runs)}\n`;
}
