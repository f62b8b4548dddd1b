import type { Campaign } from "../campaign/types.ts";
import { valueOrNull } from "../measured.ts";
import { column } from "./column.ts";
import { columnNames } from "./columnNames.ts";
import { flagCodes } from "./flagCodes.ts";
import { ruleColumns } from "./ruleColumns.ts";
import { runColumns } from "./runColumns.ts";
import type { Columns, TableInfo } from "./tableInfo.ts";
import { type Cell, toCsv } from "./toCsv.ts";

const columns = {
  ...runColumns,
  window: column.text("Window", "Temperature window of the protocol", { required: true }),
  from_C: column.number("Lower edge", "Lower edge of the window", { unit: "°C", required: true }),
  to_C: column.number("Upper edge", "Upper edge of the window", { unit: "°C", required: true }),
  ...ruleColumns,
  loss_mg: column.number("Mass loss", "Mass lost in the window, by its rule", { unit: "mg" }),
  loss_pct_initial: column.number("Mass loss", "Mass lost in the window per initial mass, by its rule", { unit: "%" }),
  index: column.number("Index", "Mass loss per reference mass, by the rule of the window", { unit: "g/100 g" }),
  index_u: column.number("u(index)", "Standard uncertainty of the index from the budget of the run", {
    unit: "g/100 g",
    minimum: 0,
  }),
  index_step: column.number("Index by step", "The index by the rule step", { unit: "g/100 g" }),
  index_area: column.number("Index by area", "The index by the rule area", { unit: "g/100 g" }),
  peak_C: column.number("DTG peak", "Temperature of the highest prominent DTG maximum inside the window", {
    unit: "°C",
  }),
  peak_dtg_pct_per_C: column.number("DTG at the peak", "DTG there, of the initial mass", { unit: "%/°C" }),
  flags: column.codes("Flags", "What was found about the window, and why numbers are missing"),
} satisfies Columns;

/** What losses.csv holds. */
export const lossesInfo: TableInfo = {
  path: "losses.csv",
  title: "Losses",
  description: "One row per run and window: mass loss, index with its uncertainty, index by each rule, DTG peak",
  columns,
  primaryKey: ["file", "window"],
  foreignKey: { column: "file", path: "runs.csv" },
};

type Row = Record<keyof typeof columns, Cell>;

/**
 * losses.csv: one row per run and window; a failed run has no windows and stands in runs.csv only.
 *
 * @example
 * ```ts
 * import { indexBytes, lossesCsv, newJob, protocols, settle, summarise } from "tg-hydrates";
 * const protocol = settle(protocols.csa);
 * const rows = ["T/°C\tm/mg"];
 * for (let T = 30; T <= 960; T += 0.5) rows.push(`${T}\t${(20 - 4 / (1 + Math.exp((130 - T) / 5))).toFixed(4)}`);
 * const bytes = new TextEncoder().encode(rows.join("\n"));
 * const campaign = summarise([indexBytes(bytes, newJob("a.txt", { mix: "M1", age_min: 1440 }), { protocol })], { protocol });
 * if (lossesCsv(campaign).trimEnd().split("\n").length !== 1 + protocol.windows.length) throw new Error("one row per window");
 * ```
 */
export function lossesCsv(campaign: Campaign): string {
  return toCsv(columnNames(columns), rowsOf(campaign));
}

function* rowsOf({ runs }: Campaign): Generator<Row> {
  for (const run of runs) {
    if (run.status === "failed") continue;
    const { file, mix, curing, curing_d, age_d, specimen, replicate } = run;
    for (const row of run.windows) {
      const { window, from_C, to_C, rule, basis, peak_C, peak_dtg_pct_per_C } = row;
      const { loss_mg, loss_pct_initial, index, index_step, index_area, flags } = row;
      // One by one: spread from an object they make the table three times as slow.
      yield {
        file,
        mix,
        curing,
        curing_d,
        age_d,
        specimen,
        replicate,
        window,
        from_C,
        to_C,
        rule,
        basis,
        peak_C,
        peak_dtg_pct_per_C,
        loss_mg: valueOrNull(loss_mg),
        loss_pct_initial: valueOrNull(loss_pct_initial),
        index: valueOrNull(index),
        index_u: "missing" in index ? null : index.u,
        index_step: valueOrNull(index_step),
        index_area: valueOrNull(index_area),
        flags: flagCodes(flags, [loss_mg, loss_pct_initial, index, index_step, index_area]),
      };
    }
  }
}
