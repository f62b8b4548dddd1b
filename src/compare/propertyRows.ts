import type { ContrastRow, PropertyCellRow } from "../campaign/decisions.ts";
import { mean } from "../numerics/mean.ts";
import { standardDeviation } from "../numerics/standardDeviation.ts";
import { studentQuantile } from "../numerics/studentQuantile.ts";
import { cellKey, minutesOf } from "./cellKey.ts";
import { compareCells } from "./compareCells.ts";
import { isRegime } from "./findRegime.ts";
import { pairOf } from "./pairOf.ts";
import { isLengthChange, propertyUnit } from "./propertyUnits.ts";
import type { ComparedCell, ScatterChoice } from "./types.ts";

/**
 * Statistics of each property per cell: mean, interval from the pooled scatter, retention against the reference regime, share of the
 * value at the reference age and, of changes of length, the change since the end of moist curing.
 *
 * @param cells From `propertyCells`.
 * @param options `contrasts` of these cells, whose ratios are the retention and the share.
 */
export function propertyRows(
  cells: readonly ComparedCell[],
  options: { contrasts: readonly ContrastRow[]; scatter?: ScatterChoice },
): PropertyCellRow[] {
  const { contrasts, scatter = "pooled" } = options;
  const keyOf = (row: ContrastRow | ComparedCell) => JSON.stringify([row.quantity, ...cellKey(row)]);
  const byKey = new Map(contrasts.map((row) => [`${row.against} ${keyOf(row)}`, row]));
  return cells.flatMap((cell) => {
    if (cell.value === null) return [];
    const { mix, curing, curing_d, age_d, quantity, unit, specimens } = cell;
    const retention = byKey.get(`regime ${keyOf(cell)}`);
    const share = byKey.get(`age ${keyOf(cell)}`);
    const row: PropertyCellRow = {
      ...{ mix, curing, curing_d, age_d, property: quantity, unit, n_specimens: specimens.length, value: cell.value },
      ...intervalOf(cell),
      retention_pct: retention?.ratio_pct ?? null,
      retention_lo95: retention?.ratio_lo95 ?? null,
      retention_hi95: retention?.ratio_hi95 ?? null,
      share_pct: share?.ratio_pct ?? null,
      share_lo95: share?.ratio_lo95 ?? null,
      share_hi95: share?.ratio_hi95 ?? null,
      ...sinceCuring(cell, cells, scatter),
    };
    return [row];
  });
}

/** 95 % interval of a mean of specimens, by their pooled scatter; none where the scatter is not known. */
function intervalOf({ specimens, scatter, value }: ComparedCell) {
  const values = specimens.map((one) => one.value);
  const sd = values.length < 2 ? null : standardDeviation(values);
  if (scatter === null) return { sd, u: null, df: null, lo95: null, hi95: null };
  const centre = value ?? mean(values);
  const u = (scatter.a + scatter.b * Math.abs(centre)) / Math.sqrt(values.length);
  const half = studentQuantile(0.975, scatter.df) * u;
  return { sd, u, df: scatter.df, lo95: centre - half, hi95: centre + half };
}

/** Length change since the end of moist curing: less the value of the same regime at that age. */
function sinceCuring(cell: ComparedCell, cells: readonly ComparedCell[], scatter: ScatterChoice) {
  const none = { since_curing: null, since_curing_lo95: null, since_curing_hi95: null };
  const { quantity, unit, mix, curing_d, age_d } = cell;
  const strain = propertyUnit(unit, { length: isLengthChange(quantity) }).kind === "strain";
  if (!strain || curing_d === null || curing_d === 0 || age_d === null || !(age_d > curing_d)) return none;
  const end = cells.find(
    (one) =>
      one.quantity === quantity &&
      one.mix === mix &&
      isRegime(one, cell) &&
      minutesOf(one.age_d) === minutesOf(curing_d),
  );
  if (end === undefined || end.value === null || cell.value === null) return none;
  const pair = pairOf(cell, end, { scatter });
  if (typeof pair === "string") return { ...none, since_curing: cell.value - end.value };
  const { difference, lo95, hi95 } = compareCells(pair);
  return { since_curing: difference, since_curing_lo95: lo95, since_curing_hi95: hi95 };
}
