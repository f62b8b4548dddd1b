import { compareKeys } from "../campaign/compareKeys.ts";
import { type Scatter, scatterOf } from "../campaign/scatterOf.ts";
import { specimensOf } from "../campaign/specimensOf.ts";
import { mean } from "../numerics/mean.ts";
import { pooledDeviation } from "../numerics/pooledDeviation.ts";
import { cellKey } from "./cellKey.ts";
import type { ComparedCell, PropertyRow } from "./types.ts";

/**
 * Properties as cells to compare: values of one specimen averaged first, the scatter of specimens pooled over all cells of the property.
 *
 * @param rows From `parseProperties`, or plain rows in one unit per property.
 * @returns Properties in the order of their names; cells sorted by mix, curing, days of curing, age. Values that are all positive scatter
 * in proportion to themselves, as indices do, unless the data say otherwise; values of either sign (length changes)
 * scatter by one standard deviation throughout.
 * @throws RangeError for a property in two units.
 */
export function propertyCells(rows: readonly PropertyRow[]): ComparedCell[] {
  const properties = [...new Set(rows.map(({ property }) => property))].sort();
  return properties.flatMap((property) => {
    const own = rows.filter((row) => row.property === property);
    const unit = own[0]!.unit;
    const other = own.find((row) => row.unit !== unit);
    if (other) throw new RangeError(`Give ${property} in one unit, not in ${unit} and ${other.unit}`);
    const groups = new Map<string, PropertyRow[]>();
    for (const row of own) {
      const key = JSON.stringify(cellKey(headOf(row)));
      groups.set(key, [...(groups.get(key) ?? []), row]);
    }
    const cells = [...groups.values()].map((group) => {
      const specimens = specimensOf(group.map(({ specimen, value }) => ({ specimen, value, terms: [] })));
      return { ...headOf(group[0]!), specimens: specimens.map(({ specimen, value }) => ({ specimen, value })) };
    });
    const values = cells.map(({ specimens }) => specimens.map(({ value }) => value));
    const scatter = own.every(({ value }) => value > 0) ? scatterOf(values) : constantScatter(values);
    return cells
      .sort((a, b) => compareKeys(cellKey(a), cellKey(b)))
      .map(
        (cell): ComparedCell => ({
          ...cell,
          quantity: property,
          kind: "property",
          unit,
          value: mean(cell.specimens.map(({ value }) => value)),
          shared: [],
          scatter,
          flags: [],
        }),
      );
  });
}

function headOf({ mix, curing, curing_d, age_min }: PropertyRow) {
  return { mix, curing, curing_d, age_d: age_min === null ? null : age_min / 1440 };
}

function constantScatter(values: readonly (readonly number[])[]): Scatter | null {
  const pooled = pooledDeviation(values);
  return pooled === null ? null : { model: "constant", a: pooled.deviation, b: 0, df: pooled.df };
}
