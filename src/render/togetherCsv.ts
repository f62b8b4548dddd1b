import type { TogetherRow } from "../campaign/decisions.ts";
import { column } from "./column.ts";
import { columnNames } from "./columnNames.ts";
import { intervalColumns } from "./intervalColumns.ts";
import type { Columns, TableInfo } from "./tableInfo.ts";
import { type Cell, toCsv } from "./toCsv.ts";

const [lo95, hi95] = intervalColumns("the coefficient");
const columns = {
  property: column.text("Property", "Property measured on sister specimens", { required: true }),
  unit: column.text("Unit", "Unit of the property", { required: true }),
  quantity: column.text("Window", "Window whose index is held against the property", { required: true }),
  mix: column.text("Mix", "Mix; empty for all mixes together"),
  adjusted_for: column.oneOf<TogetherRow["adjusted_for"]>(
    "Adjusted for",
    "age: differences from each age's mean; none: ages thrown together, which shows growth",
    { age: true, none: true },
    { required: true },
  ),
  method: column.oneOf<TogetherRow["method"]>(
    "Method",
    "Coefficient of Pearson, or of ranks by Spearman",
    { pearson: true, spearman: true },
    { required: true },
  ),
  n_cells: column.count("Cells", "Cells that have both"),
  n_groups: column.count("Groups", "Ages of each mix that take part"),
  r: column.number("r", "Coefficient of correlation", { minimum: -1, maximum: 1 }),
  lo95,
  hi95,
  p: column.probability("p", "Two-sided p of no association, by permutation"),
  exact: column.oneOf<"exact" | "sampled">("Permutations", "Whether all permutations were tried, or a sample of them", {
    exact: true,
    sampled: true,
  }),
  verdict: column.oneOf<TogetherRow["verdict"]>(
    "Verdict",
    "Whether an association is shown; it is no cause",
    {
      ...{ "rise together": true, "run against each other": true, "not shown": true },
      ...{ "too-few-cells": true, "no-scatter": true },
    },
    { required: true },
  ),
} satisfies Columns;

/** What together.csv holds. */
export const togetherInfo: TableInfo = {
  path: "together.csv",
  title: "Together",
  description: "One row per property, index, mix and way of correlating: whether the two go together over cells",
  columns,
  uniqueKey: ["property", "quantity", "mix", "adjusted_for", "method"],
};

/**
 * together.csv: one row per property, index, mix and way of correlating. `adjusted_for` `age`: differences from each age's mean; `none`:
 * ages thrown together, which shows growth. An empty mix: all mixes.
 */
export function togetherCsv(together: readonly TogetherRow[]): string {
  const rows = together.map(({ exact, ...row }): Record<keyof typeof columns, Cell> => {
    return { ...row, exact: exact === null ? null : exact ? "exact" : "sampled" };
  });
  return toCsv(columnNames(columns), rows);
}
