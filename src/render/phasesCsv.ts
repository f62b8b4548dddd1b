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
