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

/**
 * ages.csv: one row per cell and window.
 *
 * @example
 * ```ts
 * import { agesCsv, indexBytes, newJob, protocols, settle, summarise } from "tg-hydrates";
 * const protocol = settle(protocols.csa);
 * const rows = ["T/°C\tm/mg"];
 * for (let T = 30; T <= 960; T += 0.5) rows.push(`${T}\t${(20 - 4 / (1 + Math.exp((130 - T) / 5))).toFixed(4)}`);
 * const bytes = new TextEncoder().encode(rows.join("\n"));
 * const campaign = summarise([indexBytes(bytes, newJob("a.txt", { mix: "M1", age_min: 1440 }), { protocol })], { protocol });
 * const [heading, first] = agesCsv(campaign).split("\n");
 * if (!heading!.startsWith("mix,curing") || !first!.startsWith("M1,,,1,aft-afm,step,ignited,1,1,25")) throw new Error("25 g/100 g");
 * ```
 */
export function agesCsv(campaign: Campaign): string {
  const rows = campaign.ages.map(
    (age): Row => ({ ...age, index: valueOrNull(age.index), flags: flagCodes(age.flags, [age.index]) }),
  );
  return toCsv(agesColumns, rows);
}
