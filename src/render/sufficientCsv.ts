import type { Margin, Requirement, SufficientRow, SufficientStep } from "../campaign/decisions.ts";
import { cellColumns } from "./cellColumns.ts";
import { column } from "./column.ts";
import { columnNames } from "./columnNames.ts";
import { formatNumber } from "./formatNumber.ts";
import { noVerdictWords } from "./noVerdictWords.ts";
import type { Columns, TableInfo } from "./tableInfo.ts";
import { type Cell, toCsv } from "./toCsv.ts";

const ofUnit = "in the unit of the quantity";
const columns = {
  quantity: column.text("Quantity", "Window whose index, or property whose value, is judged", { required: true }),
  unit: column.text("Unit", "Unit of the quantity", { required: true }),
  mix: cellColumns.mix,
  curing: { ...cellColumns.curing, constraints: { required: true } },
  age_d: column.number("Age at test", "Age at which durations of curing are compared", {
    unit: "d",
    minimum: 0,
    required: true,
  }),
  longest_d: column.number("Longest curing", "Longest duration, against which the others are held", {
    unit: "d",
    minimum: 0,
    required: true,
  }),
  margin: column.text("Margin", "By how much a shorter curing may be worse, as stated beforehand, with its unit"),
  requirement: column.text("Requirement", "What the value must reach or not exceed, with its unit"),
  curing_d: column.number("Days of curing", "Duration of curing that the row judges", {
    unit: "d",
    minimum: 0,
    required: true,
  }),
  tested: column.text("Curing tested", "Curing of this cell as the run sheet calls it"),
  n: column.count("Specimens", "Specimens of the cell"),
  value: column.number("Value", `Mean of the cell, ${ofUnit}`),
  share_pct: column.number("Share", "Value per that of the longest curing", { unit: "%" }),
  share_lower95: column.number("Lower bound of the share", "One-sided 95 % bound of the share", { unit: "%" }),
  p: column.probability("p", "One-sided p of being worse than the longest by the margin or more"),
  df: column.number("Degrees of freedom", "Degrees of freedom of the comparison", { minimum: 0 }),
  bound95: column.number("Bound", `One-sided 95 % bound of the value on the side of the requirement, ${ofUnit}`),
  verdict: column.oneOf<SufficientStep["verdict"]>(
    "Verdict",
    "Whether this duration is shown to hold; from the longest down, the first that is not ends the sequence",
    { longest: true, holds: true, "not shown": true, "not reached": true, ...noVerdictWords },
    { required: true },
  ),
  sufficient_d: column.number("Shortest sufficient curing", "The result; empty where none is shown to be sufficient", {
    unit: "d",
    minimum: 0,
  }),
  caution: column.text("Caution", "Goes with every use of the result", { required: true }),
} satisfies Columns;

/** What sufficient.csv holds. */
export const sufficientInfo: TableInfo = {
  path: "sufficient.csv",
  title: "Sufficient curing",
  description: "One row per quantity, mix, curing and duration, from the longest down; result and caution in every row",
  columns,
  uniqueKey: ["quantity", "mix", "curing", "curing_d"],
};

type Row = Record<keyof typeof columns, Cell>;

/** sufficient.csv: one row per duration, from the longest down; the result and its caution stand in every row. */
export function sufficientCsv(sufficient: readonly SufficientRow[]): string {
  const rows = sufficient.flatMap(({ steps, margin, requirement, sentence: _, ...row }) =>
    steps.map(
      ({ curing, ...step }): Row => ({
        ...row,
        ...step,
        tested: curing,
        margin: marginText(margin),
        requirement: requirementText(requirement),
      }),
    ),
  );
  return toCsv(columnNames(columns), rows);
}

/** `10 %`, `3 MPa`. */
function marginText(margin: Margin | null): string | null {
  if (margin === null) return null;
  const { kind, size, unit } = margin;
  return kind === "share" ? `${formatNumber(100 * size)} %` : [formatNumber(size), unit].filter(Boolean).join(" ");
}

/** `>= 24 MPa`. */
function requirementText(requirement: Requirement | null): string | null {
  if (requirement === null) return null;
  const { at, value, unit } = requirement;
  return `${at === "least" ? ">=" : "<="} ${formatNumber(value)} ${unit}`;
}
