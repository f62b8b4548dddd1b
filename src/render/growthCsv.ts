import type { GrowthRow } from "../campaign/decisions.ts";
import { cellColumns } from "./cellColumns.ts";
import { column } from "./column.ts";
import { columnNames } from "./columnNames.ts";
import { intervalColumns } from "./intervalColumns.ts";
import type { Columns, TableInfo } from "./tableInfo.ts";
import { type Cell, toCsv } from "./toCsv.ts";

const per = "unit of the quantity per tenfold age, or per day of curing";
const [slope_lo95, slope_hi95] = intervalColumns(`the slope, ${per}`);
const [sen_lo95, sen_hi95] = intervalColumns(`the robust slope, ${per}`);
const columns = {
  quantity: column.text("Quantity", "Window whose index, or property whose value, is followed", { required: true }),
  unit: column.text("Unit", "Unit of the quantity", { required: true }),
  mix: cellColumns.mix,
  curing: cellColumns.curing,
  curing_d: column.number("Days of curing", "Days of curing of the regime; empty where these are what varies", {
    unit: "d",
    minimum: 0,
  }),
  against: column.oneOf<GrowthRow["against"]>(
    "Against",
    "What the quantity is held against: age of one regime, or days of curing at one age",
    { age: true, curing: true },
    { required: true },
  ),
  age_d: column.number("Age", "The fixed age; empty where age is what varies", { unit: "d", minimum: 0 }),
  n_cells: column.count("Cells", "Cells that take part"),
  n_specimens: column.count("Specimens", "Specimens of these cells"),
  from_d: column.number("From", "Shortest age or curing", { unit: "d", minimum: 0, required: true }),
  to_d: column.number("To", "Longest age or curing", { unit: "d", minimum: 0, required: true }),
  slope: column.number("Slope", `Least squares through the specimens, ${per}`),
  slope_lo95,
  slope_hi95,
  slope_df: column.number("Degrees of freedom", "Degrees of freedom of the slope", { minimum: 0 }),
  sen_slope: column.number("Robust slope", `Median of the slopes of all pairs of cells (Theil and Sen), ${per}`),
  sen_lo95,
  sen_hi95,
  order_p: column.probability("p of order", "Two-sided p of Jonckheere and Terpstra's test, on specimens"),
  order_smallest_p: column.probability("Smallest p of order", "Smallest p that any data of this design could give"),
  trend_p: column.probability("p of trend", "Two-sided p of Mann and Kendall's test, on the means of the cells"),
  trend_smallest_p: column.probability("Smallest p of trend", "Smallest p that any data of this design could give"),
  verdict: column.oneOf<GrowthRow["verdict"]>(
    "Verdict",
    "Whether a rise or a fall is shown",
    {
      ...{ rises: true, falls: true, "not shown": true },
      ...{ "cannot be shown": true, "same-specimens": true, "too-few-cells": true },
    },
    { required: true },
  ),
} satisfies Columns;

/** What growth.csv holds. */
export const growthInfo: TableInfo = {
  path: "growth.csv",
  title: "Growth",
  description: "One row per quantity and regime, against age, or per quantity, curing and age, against days of curing",
  columns,
  uniqueKey: ["quantity", "mix", "curing", "curing_d", "against", "age_d"],
};

type Row = Record<keyof typeof columns, Cell>;

/** growth.csv: slopes per tenfold age (`against` `age`) or per day of curing, and tests of order. */
export function growthCsv(growth: readonly GrowthRow[]): string {
  return toCsv(
    columnNames(columns),
    growth.map((row): Row => ({ ...row })),
  );
}
