import type { Campaign } from "../campaign/types.ts";
import { valueOrNull } from "../measured.ts";
import { flagCodes } from "./flagCodes.ts";
import { type Cell, toCsv } from "./toCsv.ts";

/** Columns of losses.csv. */
const lossesColumns = [
  "file",
  "mix",
  "curing",
  "curing_d",
  "age_d",
  "specimen",
  "replicate",
  "window",
  "from_C",
  "to_C",
  "rule",
  "basis",
  "loss_mg",
  "loss_pct_initial",
  "index",
  "index_u",
  "index_step",
  "index_area",
  "peak_C",
  "peak_dtg_pct_per_C",
  "flags",
] as const;

type Row = Record<(typeof lossesColumns)[number], Cell>;

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
  const rows = campaign.runs.flatMap((run) => {
    if (run.status === "failed") return [];
    const { file, mix, curing, curing_d, age_d, specimen, replicate } = run;
    return run.windows.map((window): Row => {
      const { loss_mg, loss_pct_initial, index, index_step, index_area, flags, ...rest } = window;
      return {
        ...{ file, mix, curing, curing_d, age_d, specimen, replicate },
        ...rest,
        loss_mg: valueOrNull(loss_mg),
        loss_pct_initial: valueOrNull(loss_pct_initial),
        index: valueOrNull(index),
        index_u: "missing" in index ? null : index.u,
        index_step: valueOrNull(index_step),
        index_area: valueOrNull(index_area),
        flags: flagCodes(flags, [loss_mg, loss_pct_initial, index, index_step, index_area]),
      };
    });
  });
  return toCsv(lossesColumns, rows);
}
