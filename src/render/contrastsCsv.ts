import type { ContrastRow, DifferenceVerdict, EquivalenceVerdict } from "../campaign/decisions.ts";
import { cellColumns } from "./cellColumns.ts";
import { column } from "./column.ts";
import { columnNames } from "./columnNames.ts";
import { intervalColumns } from "./intervalColumns.ts";
import { noVerdictWords } from "./noVerdictWords.ts";
import type { Columns, TableInfo } from "./tableInfo.ts";
import { type Cell, toCsv } from "./toCsv.ts";

const ofUnit = "in the unit of the quantity";
const [lo95, hi95] = intervalColumns(`the difference, ${ofUnit}`);
const [lo90, hi90] = intervalColumns(`the difference, ${ofUnit}`, { level: 90 });
const [ratio_lo95, ratio_hi95] = intervalColumns("the ratio", { unit: "%" });
const columns = {
  quantity: column.text("Quantity", "Window whose index, or property whose value, is compared", { required: true }),
  unit: column.text("Unit", "Unit of the quantity", { required: true }),
  ...cellColumns,
  reference: column.text("Reference", "What the cell is held against: a curing regime, or the same regime at an age", {
    required: true,
  }),
  n: column.count("Specimens", "Specimens of the cell"),
  n_reference: column.count("Specimens of the reference", "Specimens of the reference cell"),
  value: column.number("Value", `Mean of the cell, ${ofUnit}`),
  value_reference: column.number("Value of the reference", `Mean of the reference cell, ${ofUnit}`),
  difference: column.number("Difference", `Value less that of the reference, ${ofUnit}`),
  lo95,
  hi95,
  lo90,
  hi90,
  df: column.number("Degrees of freedom", "Degrees of freedom of the comparison", { minimum: 0 }),
  p: column.probability("p", "p value of this comparison alone, two-sided"),
  p_adjusted: column.probability("p, adjusted", "p value within its family of comparisons"),
  ratio_pct: column.number("Ratio", "Value over that of the reference", { unit: "%" }),
  ratio_lo95,
  ratio_hi95,
  margin: column.number("Margin", `Largest difference that does not matter, as stated beforehand, ${ofUnit}`, {
    minimum: 0,
  }),
  difference_verdict: column.oneOf<DifferenceVerdict>(
    "Difference shown",
    "Whether a difference is shown; not shown is never the same as equal",
    { lower: true, higher: true, "not shown": true, ...noVerdictWords },
    { required: true },
  ),
  equivalence_verdict: column.oneOf<EquivalenceVerdict>(
    "Equivalence shown",
    "Whether the values are shown to lie within the margin of one another, or beyond it",
    { "within margin": true, "outside margin": true, "not shown": true, "no margin given": true, ...noVerdictWords },
    { required: true },
  ),
  smallest_margin: column.number(
    "Smallest margin",
    `Smallest margin that this comparison could have shown with 80 % power, were there no difference, ${ofUnit}`,
    { minimum: 0 },
  ),
  robust: column.text(
    "Robust",
    "Whether both verdicts survive 5 °C at each edge and the other rules: yes, not tested, or no and what changes them",
  ),
  method: column.text("Method", "How the difference, the ratio and the adjusted p value were had", { required: true }),
} satisfies Columns;

/** What contrasts.csv holds. */
export const contrastsInfo: TableInfo = {
  path: "contrasts.csv",
  title: "Contrasts",
  description:
    "One row per comparison of a cell with the reference regime at the same age, or with the same regime at another age",
  columns,
  uniqueKey: ["quantity", "mix", "curing", "curing_d", "age_d", "reference"],
};

type Row = Record<keyof typeof columns, Cell>;

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
  return toCsv(columnNames(columns), rows);
}

/** `yes`, `no: area;to+5`, `not tested`; what could not be tried stands behind it. */
function robustText({ robust, sensitive_to, untested }: ContrastRow): string | null {
  if (robust === null) return null;
  const by = robust === "no" ? `: ${sensitive_to.join(";")}` : "";
  const without = untested.length > 0 && robust !== "not tested" ? ` (without ${untested.join(";")})` : "";
  return `${robust}${by}${without}`;
}
