import type { PlanningRow } from "../campaign/decisions.ts";
import { column } from "./column.ts";
import { columnNames } from "./columnNames.ts";
import type { Columns, TableInfo } from "./tableInfo.ts";
import { type Cell, toCsv } from "./toCsv.ts";

const ofUnit = "in the unit of the quantity";
const columns = {
  quantity: column.text("Quantity", "Window whose index, or property whose value, is planned for", { required: true }),
  unit: column.text("Unit", "Unit of the quantity", { required: true }),
  at: column.number("Mean", `Mean of the cells that the scatter comes from, ${ofUnit}`, { required: true }),
  sd: column.number("Scatter", `Standard deviation of specimens there, ${ofUnit}`, { minimum: 0, required: true }),
  df: column.number("Degrees of freedom", "Degrees of freedom of the scatter", { minimum: 0, required: true }),
  cells: column.count("Cells", "Cells whose specimens were pooled"),
  n_now: column.number("Specimens now", "Specimens per cell now, the median", { minimum: 0, required: true }),
  comparisons: column.count("Comparisons", "Comparisons of the largest family of the quantity"),
  detectable: column.number(
    "Detectable",
    `Smallest true difference found with 80 % power now, by one comparison, ${ofUnit}`,
    {
      minimum: 0,
    },
  ),
  detectable_family: column.number("Detectable in the family", `The same by each comparison of the family, ${ofUnit}`, {
    minimum: 0,
  }),
  difference: column.number("Difference", `Difference to be found, ${ofUnit}`, { minimum: 0 }),
  difference_pct: column.number("Difference", "The difference per mean", { unit: "%", minimum: 0 }),
  n: column.countOrNone("Specimens needed", "Specimens per cell for one comparison; empty for more than 100"),
  n_family: column.countOrNone("Specimens needed in the family", "The same for every comparison of the family"),
} satisfies Columns;

/** What planning.csv holds. */
export const planningInfo: TableInfo = {
  path: "planning.csv",
  title: "Planning",
  description: "One row per quantity and difference: specimens per cell that it takes to find the difference",
  columns,
  uniqueKey: ["quantity", "difference"],
};

type Row = Record<keyof typeof columns, Cell>;

/** planning.csv: specimens per cell that a difference needs, one row per quantity and difference; an empty n is more than 100. */
export function planningCsv(planning: readonly PlanningRow[]): string {
  const none = { difference: null, difference_pct: null, n: null, n_family: null };
  const rows = planning.flatMap(({ aims, ...row }) =>
    (aims.length === 0 ? [none] : aims).map((aim): Row => ({ ...row, ...aim })),
  );
  return toCsv(columnNames(columns), rows);
}
