import type { ContrastRow } from "../campaign/decisions.ts";
import { type Cell, toCsv } from "./toCsv.ts";

/** Columns of contrasts.csv. */
const contrastsColumns = [
  "quantity",
  "mix",
  "curing",
  "curing_d",
  "age_d",
  "reference",
  "n",
  "n_reference",
  "value",
  "value_reference",
  "difference",
  "lo95",
  "hi95",
  "lo90",
  "hi90",
  "df",
  "p",
  "p_adjusted",
  "ratio_pct",
  "ratio_lo95",
  "ratio_hi95",
  "margin",
  "difference_verdict",
  "equivalence_verdict",
  "smallest_margin",
  "robust",
  "method",
] as const;

type Row = Record<(typeof contrastsColumns)[number], Cell>;

/**
 * contrasts.csv: one row per comparison of two cells; values and differences in the unit of the quantity.
 *
 * @example
 * ```ts
 * import { exampleCampaign, indexBytes, parseSheet, protocols, settle, summarise, compare, contrastsCsv } from "tg-hydrates";
 * const protocol = settle(protocols.csa);
 * const { files } = exampleCampaign(7, { size: "small", rows: 300 });
 * const text = (name: string) => new TextDecoder().decode(files.find((file) => file.name === name)!.bytes);
 * const { rows } = parseSheet(text("sheet.csv"), { name: "sheet.csv" });
 * const runs = rows.map((job) => indexBytes(files.find(({ name }) => name === job.file)!.bytes, job, { protocol }));
 * const campaign = summarise(runs, { protocol });
 * const csv = contrastsCsv(compare(campaign, { reference: "sealed" }).contrasts);
 * if (!csv.includes("aft-afm")) throw new Error("one row per contrast");
 * ```
 */
export function contrastsCsv(contrasts: readonly ContrastRow[]): string {
  const rows = contrasts.map((row): Row => ({ ...row, robust: robustText(row) }));
  return toCsv(contrastsColumns, rows);
}

/** `yes`, `no: area;to+5`, `not tested`; what could not be tried stands behind it. */
function robustText({ robust, sensitive_to, untested }: ContrastRow): string | null {
  if (robust === null) return null;
  const by = robust === "no" ? `: ${sensitive_to.join(";")}` : "";
  const without = untested.length > 0 && robust !== "not tested" ? ` (without ${untested.join(";")})` : "";
  return `${robust}${by}${without}`;
}
