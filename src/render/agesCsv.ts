import type { Campaign } from "../campaign/types.ts";
import { valueOrNull } from "../measured.ts";
import { flagCodes } from "./flagCodes.ts";
import { type Cell, toCsv } from "./toCsv.ts";

/** Columns of ages.csv. */
const agesColumns = [
  "mix",
  "curing",
  "curing_d",
  "age_d",
  "window",
  "rule",
  "basis",
  "n_specimens",
  "n_runs",
  "index",
  "index_sd",
  "u_random",
  "u_shared",
  "df",
  "index_u",
  "index_lo95",
  "index_hi95",
  "flags",
] as const;

type Row = Record<(typeof agesColumns)[number], Cell>;

/** ages.csv: one row per cell and window. */
export function agesCsv(campaign: Campaign): string {
  const rows = campaign.ages.map(
    (age): Row => ({ ...age, index: valueOrNull(age.index), flags: flagCodes(age.flags, [age.index]) }),
  );
  return toCsv(agesColumns, rows);
}
