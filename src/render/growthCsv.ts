import type { GrowthRow } from "../campaign/decisions.ts";
import { type Cell, toCsv } from "./toCsv.ts";

/** Columns of growth.csv. */
const growthColumns = [
  "quantity",
  "unit",
  "mix",
  "curing",
  "curing_d",
  "against",
  "age_d",
  "n_cells",
  "n_specimens",
  "from_d",
  "to_d",
  "slope",
  "slope_lo95",
  "slope_hi95",
  "slope_df",
  "sen_slope",
  "sen_lo95",
  "sen_hi95",
  "order_p",
  "order_smallest_p",
  "trend_p",
  "trend_smallest_p",
  "verdict",
] as const;

type Row = Record<(typeof growthColumns)[number], Cell>;

/** growth.csv: slopes per tenfold age (`against` `age`) or per day of curing, and tests of order. */
export function growthCsv(growth: readonly GrowthRow[]): string {
  return toCsv(
    growthColumns,
    growth.map((row): Row => ({ ...row })),
  );
}
