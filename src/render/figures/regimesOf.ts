import { compareKeys } from "../../campaign/compareKeys.ts";
import type { Campaign } from "../../campaign/types.ts";
import { regimeWords } from "../../compare/words.ts";
import type { CellKey } from "../../protocol/types.ts";
import { labelsOf } from "./labelsOf.ts";
import { type SeriesStyle, seriesStyle } from "./seriesStyle.ts";

/** A curing regime of a campaign with its look, the same in all figures. */
export interface RegimeLook {
  label: string;
  style: SeriesStyle;
}

/** What tells regimes apart. */
export function regimeKey({ curing, curing_d }: Pick<CellKey, "curing" | "curing_d">): string {
  return JSON.stringify([curing, curing_d === null ? null : Number(curing_d.toPrecision(9))]);
}

/** Every regime of a campaign, those that only properties have included, by {@link regimeKey}; sorted by curing and days. */
export function regimesOf(
  { ages, runs, decisions }: Pick<Campaign, "ages" | "runs" | "decisions">,
  most: number,
): Map<string, RegimeLook> {
  const specimens = runs.filter(({ role }) => role === "specimen");
  const keys = [...new Set([...ages, ...specimens, ...(decisions?.properties ?? [])].map(regimeKey))];
  const sorted = keys.map((key) => JSON.parse(key) as [string | null, number | null]).sort(compareKeys);
  const labels = labelsOf(
    sorted.map(([curing, curing_d]) => regimeWords({ curing, curing_d })),
    most,
  );
  return new Map(sorted.map((pair, i) => [JSON.stringify(pair), { label: labels[i]!, style: seriesStyle(i) }]));
}
