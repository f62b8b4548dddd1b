import type { PropertyCellRow } from "../campaign/decisions.ts";
import { type Cell, toCsv } from "./toCsv.ts";

/** Columns of properties.csv. */
const propertiesColumns = [
  "mix",
  "curing",
  "curing_d",
  "age_d",
  "property",
  "unit",
  "n_specimens",
  "value",
  "sd",
  "u",
  "df",
  "lo95",
  "hi95",
  "retention_pct",
  "retention_lo95",
  "retention_hi95",
  "share_pct",
  "share_lo95",
  "share_hi95",
  "since_curing",
  "since_curing_lo95",
  "since_curing_hi95",
] as const;

type Row = Record<(typeof propertiesColumns)[number], Cell>;

/**
 * properties.csv: one row per cell and property. `retention`: of the reference regime at the same age; `share`: of the same regime at the
 * reference age; `since_curing`: change of length since the end of moist curing.
 */
export function propertiesCsv(properties: readonly PropertyCellRow[]): string {
  return toCsv(
    propertiesColumns,
    properties.map((row): Row => row),
  );
}
