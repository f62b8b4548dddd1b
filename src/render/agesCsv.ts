import type { Campaign } from "../campaign/types.ts";
import { valueOrNull } from "../measured.ts";
import { cellColumns } from "./cellColumns.ts";
import { column } from "./column.ts";
import { columnNames } from "./columnNames.ts";
import { flagCodes } from "./flagCodes.ts";
import { intervalColumns } from "./intervalColumns.ts";
import { ruleColumns } from "./ruleColumns.ts";
import type { Columns, TableInfo } from "./tableInfo.ts";
import { type Cell, toCsv } from "./toCsv.ts";

const [index_lo95, index_hi95] = intervalColumns("the mean", { unit: "g/100 g" });
const columns = {
  ...cellColumns,
  window: column.text("Window", "Temperature window of the protocol", { required: true }),
  ...ruleColumns,
  n_specimens: column.count("Specimens", "Specimens that the mean is taken over"),
  n_runs: column.count("Runs", "Runs of these specimens"),
  index: column.number("Index", "Mean over specimens of the mass loss per reference mass", { unit: "g/100 g" }),
  index_sd: column.number("Scatter", "Standard deviation of the specimens; empty for one", {
    unit: "g/100 g",
    minimum: 0,
  }),
  u_random: column.number("u, random", "Standard uncertainty of the mean from the scatter of specimens", {
    unit: "g/100 g",
    minimum: 0,
  }),
  u_shared: column.number(
    "u, shared",
    "Standard uncertainty from what all runs share: temperature axis, buoyancy, mix",
    {
      unit: "g/100 g",
      minimum: 0,
    },
  ),
  df: column.number("Degrees of freedom", "Effective degrees of freedom of index_u (Welch and Satterthwaite)", {
    minimum: 0,
  }),
  index_u: column.number("u(index)", "Combined standard uncertainty of the mean", { unit: "g/100 g", minimum: 0 }),
  index_lo95,
  index_hi95,
  flags: column.codes("Flags", "What was found about the cell, and why numbers are missing"),
} satisfies Columns;

/** What ages.csv holds. */
export const agesInfo: TableInfo = {
  path: "ages.csv",
  title: "Indices per age",
  description: "One row per mix, curing, age and window: mean over specimens, scatter, uncertainty, interval",
  columns,
  uniqueKey: ["mix", "curing", "curing_d", "age_d", "window"],
};

type Row = Record<keyof typeof columns, Cell>;

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
  return toCsv(columnNames(columns), rows);
}
