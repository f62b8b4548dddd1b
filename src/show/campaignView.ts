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
  const marked = windows.map((_, i) =>
    blocks.some(({ lines }) => lines.some(({ cells }) => cells[i]![2].endsWith("*"))),
  );
  // A figure space where others have a mark, so that the digits stand below one another.
  const cellOf = (parts: readonly string[], i: number): string => {
    const text = parts.filter(Boolean).join(" ");
    return text !== "" && marked[i] && !text.endsWith("*") ? `${text}\u2007` : text;
  };
  return {
    caption,
    columns: [
      { heading: "regime" },
      { heading: "age", align: "right" },
      ...windows.map(({ window, rule }) => ({ heading: `${window} (${rule})`, align: "right" as const })),
    ],
    // A table of a notebook is sorted and copied: every row names its regime.
    rows: blocks.flatMap(({ title, lines }) => lines.map(({ age, cells }) => [title, age, ...cells.map(cellOf)])),
    heads: 2,
  };
}
