import type { PairRow, TogetherRow } from "../campaign/decisions.ts";
import { type Cell, toCsv } from "./toCsv.ts";

/** Columns of together.csv. */
const togetherColumns = [
  "property",
  "unit",
  "quantity",
  "mix",
  "adjusted_for",
  "method",
  "n_cells",
  "n_groups",
  "r",
  "lo95",
  "hi95",
  "p",
  "exact",
  "verdict",
] as const;

/** Columns of pairs.csv. */
const pairsColumns = [
  "property",
  "unit",
  "quantity",
  "mix",
  "curing",
  "curing_d",
  "age_d",
  "n_index",
  "index",
  "n_property",
  "value",
  "index_less_age",
  "value_less_age",
] as const;

/**
 * together.csv: one row per property, index, mix and way of correlating. `adjusted_for` `age`: differences from each age's mean; `none`:
 * ages thrown together, which shows growth. An empty mix: all mixes.
 */
export function togetherCsv(together: readonly TogetherRow[]): string {
  const rows = together.map(({ exact, ...row }): Record<(typeof togetherColumns)[number], Cell> => {
    return { ...row, exact: exact === null ? null : exact ? "exact" : "sampled" };
  });
  return toCsv(togetherColumns, rows);
}

/** pairs.csv: the scatter table, one row per cell that has both the index and the property. */
export function pairsCsv(pairs: readonly PairRow[]): string {
  return toCsv(
    pairsColumns,
    pairs.map((row): Record<(typeof pairsColumns)[number], Cell> => row),
  );
}
