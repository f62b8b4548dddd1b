import { someNames } from "../campaign/someNames.ts";
import type { Campaign } from "../campaign/types.ts";
import { agesBlocks } from "../render/agesBlocks.ts";
import { agesLegend } from "../render/agesLegend.ts";
import type { Grid, ShowOptions, View } from "./types.ts";

/** The per-age table of a campaign, what its marks mean, and which runs are missing from it. */
export function campaignView(campaign: Campaign, { caption = "Indices per age" }: ShowOptions = {}): View {
  const { runs, ages } = campaign;
  const failed = runs.filter(({ status }) => status === "failed");
  const counts = `${runs.length} ${runs.length === 1 ? "run" : "runs"}, ${failed.length} failed${
    failed.length === 0 ? "" : `: ${someNames(failed.map(({ file }) => file))}`
  }. Protocol ${campaign.protocol.name}.`;
  if (ages.length === 0) {
    return [{ heading: caption, lines: ["No run has the role specimen: there is no per-age table.", counts] }];
  }
  return [agesGrid(campaign, caption), { lines: [...agesLegend(campaign), counts] }];
}

function agesGrid({ ages }: Campaign, caption: string): Grid {
  const { windows, blocks } = agesBlocks(ages);
  return {
    caption,
    columns: [
      { heading: "regime" },
      { heading: "age", align: "right" },
      ...windows.map(({ window, rule }) => ({ heading: `${window} (${rule})`, align: "right" as const })),
    ],
    // A table of a notebook is sorted and copied: every row names its regime.
    rows: blocks.flatMap(({ title, lines }) =>
      lines.map(({ age, cells }) => [title, age, ...cells.map((parts) => parts.filter(Boolean).join(" "))]),
    ),
    heads: 2,
  };
}
