import { compareKeys } from "../campaign/compareKeys.ts";
import type { Scatter } from "../campaign/scatterOf.ts";
import { specimensOf } from "../campaign/specimensOf.ts";
import { mean } from "../numerics/mean.ts";
import { pooledDeviation } from "../numerics/pooledDeviation.ts";
import { cellKey } from "./cellKey.ts";
import { isLengthChange, propertyUnit } from "./propertyUnits.ts";
import type { ComparedCell, PropertyRow } from "./types.ts";

/**
 * Properties as cells to compare: values of one specimen averaged first, the scatter of specimens pooled over all cells of the property.
 *
 * @param rows From `parseProperties`, or plain rows in one unit per property.
 * @returns Properties in the order of their names; cells sorted by mix, curing, days of curing, age. Changes of length, and
 * values of either sign, scatter by one standard deviation throughout; all others, strength above all, in proportion to themselves. The rule is
 * fixed, since a choice by the data would be a choice of the verdicts.
 * @throws RangeError for a property in two units.
 *
 * @example
 * ```ts
 * import { parseProperties, propertyCells } from "tg-hydrates";
 * const text = `mix,curing,curing_d,age_d,property,value,unit
 * M1,moist,7,28,strength,40.0,MPa
 * M1,moist,7,28,strength,42.0,MPa`;
 * const cells = propertyCells(parseProperties(text, { name: "strength.csv" }).rows);
 * if (cells[0]!.value !== 41 || cells[0]!.specimens.length !== 2) throw new Error("one cell of two specimens");
 * ```
 */
export function propertyCells(rows: readonly PropertyRow[]): ComparedCell[] {
  const properties = [...new Set(rows.map(({ property }) => property))].sort();
  return properties.flatMap((property) => {
    // Sums depend on their order in the last digits.
    const own = rows
      .filter((row) => row.property === property)
      .sort((a, b) =>
        compareKeys([...cellKey(headOf(a)), a.specimen, a.value], [...cellKey(headOf(b)), b.specimen, b.value]),
      );
    const unit = rows.find((row) => row.property === property)!.unit;
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
    const strain = propertyUnit(unit, { length: isLengthChange(property) }).kind === "strain";
    const relative = !strain && own.every(({ value }) => value > 0);
    const scatter = pooledScatter(values, { relative });
    return cells.map(
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

function pooledScatter(values: readonly (readonly number[])[], options: { relative: boolean }): Scatter | null {
  const pooled = pooledDeviation(values, options);
  if (pooled === null) return null;
  const { deviation, df } = pooled;
  if (options.relative) return { model: "proportional", a: 0, b: deviation, df };
  return { model: "constant", a: deviation, b: 0, df };
}
