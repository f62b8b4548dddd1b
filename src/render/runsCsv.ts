import type { Campaign } from "../campaign/types.ts";
import { valueOrNull } from "../measured.ts";
import type { Role, RunResult } from "../protocol/types.ts";
import { column } from "./column.ts";
import { columnNames } from "./columnNames.ts";
import { flagCodes } from "./flagCodes.ts";
import { runColumns } from "./runColumns.ts";
import type { Columns, TableInfo } from "./tableInfo.ts";
import { type Cell, toCsv } from "./toCsv.ts";

const columns = {
  ...runColumns,
  file: { ...runColumns.file, constraints: { required: true, unique: true } },
  role: column.oneOf<Role>(
    "Role",
    "What the run is for; only specimens are averaged and compared",
    { specimen: true, blank: true, binder: true, aggregate: true, control: true, check: true },
    { required: true },
  ),
  session: column.text("Session", "Measuring session of the thermobalance, as in the run sheet"),
  status: column.oneOf<RunResult["status"]>(
    "Status",
    "done; incomplete, where a number is missing; failed, where the run could not be read or analysed",
    { done: true, incomplete: true, failed: true },
    { required: true },
  ),
  rows_read: column.countOrNone("Readings in the file", "Rows of numbers that the file holds"),
  rows_used: column.countOrNone("Readings used", "Readings of the heating that was analysed"),
  start_C: column.number("Start", "Lowest temperature of the heating", { unit: "°C" }),
  end_C: column.number("End", "Highest temperature of the heating", { unit: "°C" }),
  initial_mass_mg: column.number(
    "Initial mass",
    "Mass of the aliquot at the start; empty where the file gives % only",
    {
      unit: "mg",
      minimum: 0,
    },
  ),
  ignited_mass_mg: column.number("Ignited mass", "Mass after ignition, the reference of the indices", { unit: "mg" }),
  residue_pct: column.number("Residue", "Ignited mass per initial mass", { unit: "%" }),
  loi_pct: column.number("Loss on ignition", "Loss to ignition per initial mass", { unit: "%" }),
  heating_rate_K_per_min: column.number("Heating rate", "Median heating rate of the heating", { unit: "K/min" }),
  noise_ug: column.number("Noise", "Standard deviation of one reading of the mass", { unit: "µg", minimum: 0 }),
  flags: column.codes("Flags", "What was found about the run, why numbers are missing, why it failed"),
  sha256: column.text("SHA-256", "SHA-256 of the bytes of the file, hexadecimal", { pattern: "[0-9a-f]{64}" }),
} satisfies Columns;

/** What runs.csv holds. */
export const runsInfo: TableInfo = {
  path: "runs.csv",
  title: "Runs",
  description: "One row per run, failed ones too: what was read, masses, heating rate, noise",
  columns,
  primaryKey: ["file"],
};

type Row = Record<keyof typeof columns, Cell>;

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
  return toCsv(columnNames(columns), rows);
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
