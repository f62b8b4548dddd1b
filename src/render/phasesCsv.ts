import type { Campaign } from "../campaign/types.ts";
import { valueOrNull } from "../measured.ts";
import { flagCodes } from "./flagCodes.ts";
import { type Cell, toCsv } from "./toCsv.ts";

/** Columns of phases.csv. */
const phasesColumns = [
  "file",
  "mix",
  "curing",
  "curing_d",
  "age_d",
  "specimen",
  "replicate",
  "phase",
  "window",
  "mol_lost",
  "basis",
  "amount",
  "amount_u",
  "flags",
] as const;

type Row = Record<(typeof phasesColumns)[number], Cell>;

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
  const rows = campaign.runs.flatMap((run) => {
    if (run.status === "failed") return [];
    const { file, mix, curing, curing_d, age_d, specimen, replicate } = run;
    return run.phases.map(
      ({ phase, window, mol_lost, basis, amount, flags }): Row => ({
        ...{ file, mix, curing, curing_d, age_d, specimen, replicate },
        ...{ phase, window, mol_lost, basis },
        amount: valueOrNull(amount),
        amount_u: "missing" in amount ? null : amount.u,
        flags: flagCodes(flags, [amount]),
      }),
    );
  });
  return toCsv(phasesColumns, rows);
}
