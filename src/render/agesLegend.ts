import { someNames } from "../campaign/someNames.ts";
import type { AgeRow, Campaign } from "../campaign/types.ts";
import { agesBlocks } from "./agesBlocks.ts";
import { flagCodes } from "./flagCodes.ts";
import { terminalSafe } from "./terminalSafe.ts";

const references: Record<AgeRow["basis"], string> = {
  ignited: "ignited mass",
  initial: "initial mass",
  binder: "anhydrous binder",
};

/** What the per-age table means, which flags it has, and what was found about the whole campaign: one sentence per line. */
export function agesLegend(campaign: Campaign): string[] {
  const [first] = campaign.ages;
  if (first === undefined) return [];
  const flagged = new Map<string, number>();
  for (const { flags, index } of campaign.ages) {
    for (const code of flagCodes(flags, [index])?.split(";") ?? []) flagged.set(code, (flagged.get(code) ?? 0) + 1);
  }
  // Only signs that stand in the table are explained.
  const { blocks } = agesBlocks(campaign.ages);
  const written = blocks.flatMap(({ lines }) => lines.flatMap(({ cells }) => cells.flat()));
  const has = (sign: string): boolean => written.some((text) => text.includes(sign));
  const bare = campaign.ages.some(({ index, index_hi95 }) => "value" in index && index_hi95 === null);
  const signs = [
    ...(bare
      ? [
          "Without ±: no cell has two specimens, so that their scatter is not known; what the measurement of each run is worth stands in losses.csv (index_u).",
        ]
      : []),
    ...(has("—") ? ["—: missing, for the reason in the column flags of ages.csv."] : []),
    ...(has("*") ? ["*: flagged, see the column flags of ages.csv."] : []),
  ];
  const counts = [...flagged].map(([code, count]) => `${terminalSafe(code)} (${count})`);
  return [
    `Mass lost per window in g per 100 g of ${references[first.basis]}: mean ± half of the 95 % interval (number of specimens).`,
    ...(signs.length > 0 ? [signs.join(" ")] : []),
    ...(counts.length > 0 ? [`Flags (number of values): ${someNames(counts, { most: 12 })}.`] : []),
    ...campaign.flags.map(({ sentence }) => terminalSafe(sentence)),
  ];
}
