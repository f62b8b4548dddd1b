import type { Margin, Requirement, SufficientRow } from "../campaign/decisions.ts";
import { formatNumber } from "./formatNumber.ts";
import { type Cell, toCsv } from "./toCsv.ts";

/** Columns of sufficient.csv. */
const sufficientColumns = [
  "quantity",
  "unit",
  "mix",
  "curing",
  "age_d",
  "longest_d",
  "margin",
  "requirement",
  "curing_d",
  "tested",
  "n",
  "value",
  "share_pct",
  "share_lower95",
  "p",
  "df",
  "bound95",
  "verdict",
  "sufficient_d",
  "caution",
] as const;

type Row = Record<(typeof sufficientColumns)[number], Cell>;

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
  return toCsv(sufficientColumns, rows);
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
