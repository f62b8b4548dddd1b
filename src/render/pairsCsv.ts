import type { PairRow } from "../campaign/decisions.ts";
import { cellColumns } from "./cellColumns.ts";
import { column } from "./column.ts";
import { columnNames } from "./columnNames.ts";
import type { Columns, TableInfo } from "./tableInfo.ts";
import { type Cell, toCsv } from "./toCsv.ts";

const columns = {
  property: column.text("Property", "Property measured on sister specimens", { required: true }),
  unit: column.text("Unit", "Unit of the property", { required: true }),
  quantity: column.text("Window", "Window whose index is held against the property", { required: true }),
  ...cellColumns,
  n_index: column.count("Specimens, index", "Specimens behind the index"),
  index: column.number("Index", "Mean index of the cell", { unit: "g/100 g", required: true }),
  n_property: column.count("Specimens, property", "Specimens behind the property"),
  value: column.number("Value", "Mean of the property, in its unit", { required: true }),
  index_less_age: column.number("Index less age", "Index less the mean of all cells of this mix and age", {
    unit: "g/100 g",
  }),
  value_less_age: column.number("Value less age", "Value less the mean of all cells of this mix and age, in its unit"),
} satisfies Columns;

/** What pairs.csv holds. */
export const pairsInfo: TableInfo = {
  path: "pairs.csv",
  title: "Pairs",
  description: "One row per cell that has both the index and the property: what a scatter plot of the two shows",
  columns,
  uniqueKey: ["property", "quantity", "mix", "curing", "curing_d", "age_d"],
};

/** pairs.csv: the scatter table, one row per cell that has both the index and the property. */
export function pairsCsv(pairs: readonly PairRow[]): string {
  return toCsv(
    columnNames(columns),
    pairs.map((row): Record<keyof typeof columns, Cell> => row),
  );
}
