import type { PlanningRow } from "../campaign/decisions.ts";
import { type Cell, toCsv } from "./toCsv.ts";

/** Columns of planning.csv. */
const planningColumns = [
  "quantity",
  "unit",
  "at",
  "sd",
  "df",
  "cells",
  "n_now",
  "comparisons",
  "detectable",
  "detectable_family",
  "difference",
  "difference_pct",
  "n",
  "n_family",
] as const;

type Row = Record<(typeof planningColumns)[number], Cell>;

/** planning.csv: specimens per cell that a difference needs, one row per quantity and difference; an empty n is more than 100. */
export function planningCsv(planning: readonly PlanningRow[]): string {
  const none = { difference: null, difference_pct: null, n: null, n_family: null };
  const rows = planning.flatMap(({ aims, ...row }) =>
    (aims.length === 0 ? [none] : aims).map((aim): Row => ({ ...row, ...aim })),
  );
  return toCsv(planningColumns, rows);
}
