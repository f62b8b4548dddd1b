import type { Campaign } from "../campaign/types.ts";
import { valueOrNull } from "../measured.ts";
import { flagCodes } from "./flagCodes.ts";
import { type Cell, toCsv } from "./toCsv.ts";

/** Columns of runs.csv. */
const runsColumns = [
  "file",
  "mix",
  "curing",
  "curing_d",
  "age_d",
  "specimen",
  "replicate",
  "role",
  "session",
  "status",
  "rows_read",
  "rows_used",
  "start_C",
  "end_C",
  "initial_mass_mg",
  "ignited_mass_mg",
  "residue_pct",
  "loi_pct",
  "heating_rate_K_per_min",
  "noise_ug",
  "flags",
  "sha256",
] as const;

type Row = Record<(typeof runsColumns)[number], Cell>;

/**
 * runs.csv: one row per run, failed ones too, with the code of the error under `flags`.
 *
 * @example
 * ```ts
 * import { indexBytes, newJob, protocols, runsCsv, settle, summarise } from "tg-hydrates";
 * const protocol = settle(protocols.csa);
 * const rows = ["T/°C\tm/mg"];
 * for (let T = 30; T <= 960; T += 0.5) rows.push(`${T}\t${(20 - 4 / (1 + Math.exp((130 - T) / 5))).toFixed(4)}`);
 * const bytes = new TextEncoder().encode(rows.join("\n"));
 * const campaign = summarise([indexBytes(bytes, newJob("a.txt", { mix: "M1", age_min: 1440 }), { protocol })], { protocol });
 * if (!runsCsv(campaign).split("\n")[1]!.startsWith("a.txt,M1,")) throw new Error("one row for the run");
 * ```
 */
export function runsCsv(campaign: Campaign): string {
  const rows = campaign.runs.map((run): Row => {
    if (run.status === "failed") return { ...run, ...nothingMeasured, flags: run.error.code };
    const { ignited_mass_mg, residue_pct, loi_pct } = run;
    return {
      ...run,
      ignited_mass_mg: valueOrNull(ignited_mass_mg),
      residue_pct: valueOrNull(residue_pct),
      loi_pct: valueOrNull(loi_pct),
      flags: flagCodes(run.flags, [ignited_mass_mg, residue_pct, loi_pct]),
    };
  });
  return toCsv(runsColumns, rows);
}

const nothingMeasured = {
  rows_read: null,
  rows_used: null,
  start_C: null,
  end_C: null,
  initial_mass_mg: null,
  ignited_mass_mg: null,
  residue_pct: null,
  loi_pct: null,
  heating_rate_K_per_min: null,
  noise_ug: null,
};
