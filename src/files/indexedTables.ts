import type { Campaign } from "../campaign/types.ts";
import { agesCsv } from "../render/agesCsv.ts";
import { lossesCsv } from "../render/lossesCsv.ts";
import { phasesCsv } from "../render/phasesCsv.ts";
import { runsCsv } from "../render/runsCsv.ts";

/** The tables of an indexed campaign. */
export function indexedTables(campaign: Campaign): { name: string; content: string }[] {
  return [
    { name: "runs.csv", content: runsCsv(campaign) },
    { name: "losses.csv", content: lossesCsv(campaign) },
    { name: "phases.csv", content: phasesCsv(campaign) },
    { name: "ages.csv", content: agesCsv(campaign) },
  ];
}
