import type { PropertyCellRow } from "../campaign/decisions.ts";
import { cellColumns } from "./cellColumns.ts";
import { column } from "./column.ts";
import { columnNames } from "./columnNames.ts";
import { intervalColumns } from "./intervalColumns.ts";
import type { Columns, TableInfo } from "./tableInfo.ts";
import { type Cell, toCsv } from "./toCsv.ts";

const [lo95, hi95] = intervalColumns("the mean, in the unit of the property");
const [retention_lo95, retention_hi95] = intervalColumns("the retention", { unit: "%" });
const [share_lo95, share_hi95] = intervalColumns("the share", { unit: "%" });
const [since_curing_lo95, since_curing_hi95] = intervalColumns("this change, in the unit of the property");
const columns = {
  ...cellColumns,
  property: column.text("Property", "Property, as in the table of measured properties", { required: true }),
  unit: column.text("Unit", "Unit of the property", { required: true }),
  n_specimens: column.count("Specimens", "Specimens that the mean is taken over"),
  value: column.number("Value", "Mean over specimens, in the unit of the property", { required: true }),
  sd: column.number("Scatter", "Standard deviation of the specimens; empty for one", { minimum: 0 }),
  u: column.number("u", "Standard uncertainty of the mean from the pooled scatter", { minimum: 0 }),
  df: column.number("Degrees of freedom", "Degrees of freedom of u", { minimum: 0 }),
  lo95,
  hi95,
  retention_pct: column.number("Retention", "Value per that of the reference regime at the same age", { unit: "%" }),
  retention_lo95,
  retention_hi95,
  share_pct: column.number("Share", "Value per that of the same regime at the reference age", { unit: "%" }),
  share_lo95,
  share_hi95,
  since_curing: column.number(
    "Change since curing",
    "Changes of length: change since the end of moist curing, in the unit of the property",
  ),
  since_curing_lo95,
  since_curing_hi95,
} satisfies Columns;

/** What properties.csv of an output folder holds. */
export const propertiesInfo: TableInfo = {
  path: "properties.csv",
  title: "Properties",
  description: "One row per cell and property measured on sister specimens: mean, scatter, interval, retention",
  columns,
  uniqueKey: ["mix", "curing", "curing_d", "age_d", "property"],
};

type Row = Record<keyof typeof columns, Cell>;

/**
 * properties.csv: one row per cell and property. `retention`: of the reference regime at the same age; `share`: of the same regime at the
 * reference age; `since_curing`: change of length since the end of moist curing.
 */
export function propertiesCsv(properties: readonly PropertyCellRow[]): string {
  return toCsv(
    columnNames(columns),
    properties.map((row): Row => row),
  );
}
