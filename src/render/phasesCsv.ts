import type { Campaign } from "../campaign/types.ts";
import { valueOrNull } from "../measured.ts";
import type { AmountBasis } from "../phases/types.ts";
import { column } from "./column.ts";
import { columnNames } from "./columnNames.ts";
import { flagCodes } from "./flagCodes.ts";
import { runColumns } from "./runColumns.ts";
import type { Columns, TableInfo } from "./tableInfo.ts";
import { type Cell, toCsv } from "./toCsv.ts";

const columns = {
  ...runColumns,
  phase: column.text("Phase", "Phase that the loss of the window is taken for", { required: true }),
  window: column.text("Window", "Temperature window of the protocol", { required: true }),
  mol_lost: column.number("Mole count", "mol of gas that one mol of the phase loses in the window", {
    unit: "mol/mol",
    required: true,
  }),
  basis: column.oneOf<AmountBasis>(
    "Basis",
    "Per 100 g of what; net: less what the runs of the binder and of the aggregate lose in the same window",
    {
      ...{ ignited: true, "ignited-net": true, initial: true, "initial-net": true },
      ...{ "ignited-binder": true, "ignited-binder-net": true, binder: true, "binder-net": true },
      ...{ paste: true, "paste-net": true },
    },
    { required: true },
  ),
  amount: column.number("Amount", "Mass of the phase per mass of the basis", { unit: "g/100 g" }),
  amount_u: column.number("u(amount)", "Standard uncertainty of the amount from the budget of the run", {
    unit: "g/100 g",
    minimum: 0,
  }),
  flags: column.codes("Flags", "What was found about the amount, and why it is missing"),
} satisfies Columns;

/** What phases.csv holds. */
export const phasesInfo: TableInfo = {
  path: "phases.csv",
  title: "Phases",
  description: "One row per run, phase and basis: amounts, for the windows that declare a phase and a mole count",
  columns,
  primaryKey: ["file", "window", "basis"],
  foreignKey: { column: "file", path: "runs.csv" },
};

type Row = Record<keyof typeof columns, Cell>;

/**
 * phases.csv: one row per run, phase and basis, g of the phase per 100 g of the basis; `…-net`: less what the runs of the binder and
 * of the aggregate lose in the same window. A failed run has none.
 *
 * @example
 * ```ts
 * import { indexBytes, newJob, phasesCsv, protocols, settle, summarise } from "tg-hydrates";
 * const protocol = settle(protocols.csa);
 * const rows = ["T/°C\tm/mg"];
 * for (let T = 30; T <= 960; T += 0.5) rows.push(`${T}\t${(20 - 4 / (1 + Math.exp((130 - T) / 5))).toFixed(4)}`);
 * const bytes = new TextEncoder().encode(rows.join("\n"));
 * const campaign = summarise([indexBytes(bytes, newJob("a.txt", { mix: "M1", age_min: 1440 }), { protocol })], { protocol });
 * if (!phasesCsv(campaign).includes("calcite")) throw new Error("the only amount of the protocol csa");
 * ```
 */
export function phasesCsv(campaign: Campaign): string {
  return toCsv(columnNames(columns), rowsOf(campaign));
}

function* rowsOf({ runs }: Campaign): Generator<Row> {
  for (const run of runs) {
    if (run.status === "failed") continue;
    const { file, mix, curing, curing_d, age_d, specimen, replicate } = run;
    for (const { phase, window, mol_lost, basis, amount, flags } of run.phases) {
      yield {
        file,
        mix,
        curing,
        curing_d,
        age_d,
        specimen,
        replicate,
        phase,
        window,
        mol_lost,
        basis,
        amount: valueOrNull(amount),
        amount_u: "missing" in amount ? null : amount.u,
        flags: flagCodes(flags, [amount]),
      };
    }
  }
}
