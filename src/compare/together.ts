import { compareKeys } from "../campaign/compareKeys.ts";
import type { PairRow, TogetherRow } from "../campaign/decisions.ts";
import { mean } from "../numerics/mean.ts";
import { pearson } from "../numerics/pearson.ts";
import { spearman } from "../numerics/spearman.ts";
import { cellKey, minutesOf } from "./cellKey.ts";
import type { ComparedCell } from "./types.ts";

/** Significance of a correlation. */
const ALPHA = 0.05;

/**
 * Whether properties and indices go together over the cells that have both.
 *
 * First by differences from the mean of each age (of each mix): everything grows with age, so cells of several ages thrown together
 * show growth and little else. The pooled correlation stands below it and is labelled `none`. Pearson's for a straight relation,
 * Spearman's for a rising one, p by permutation (inside ages where these are put aside): exact for few cells, seeded above. A
 * correlation is not a cause.
 *
 * @param indices Cells of indices.
 * @param properties Cells of properties.
 * @returns Rows by property, index, mix (each, then null for all where there are several); the scatter table of the cells that have both.
 *
 * @example
 * ```ts
 * import { parseProperties, propertyCells, together } from "tg-hydrates";
 * const text = `mix,curing,curing_d,age_d,property,value,unit
 * M1,moist,7,28,strength,38,MPa
 * M1,moist,7,28,strength,40,MPa
 * M1,moist,7,28,strength,42,MPa
 * M1,cloth,7,28,strength,35,MPa
 * M1,cloth,7,28,strength,36,MPa
 * M1,cloth,7,28,strength,37,MPa
 * M1,air,0,28,strength,30,MPa
 * M1,air,0,28,strength,31,MPa
 * M1,air,0,28,strength,33,MPa`;
 * const cells = propertyCells(parseProperties(text, { name: "strength.csv" }).rows);
 * const indices = cells.map((cell) => ({ ...cell, quantity: "aft-afm", kind: "index" as const, value: cell.value! / 2 }));
 * const [row] = together(indices, cells).rows;
 * if (row!.method !== "pearson" || row!.r!.toFixed(6) !== "1.000000") throw new Error("they are proportional");
 * ```
 */
export function together(
  indices: readonly ComparedCell[],
  properties: readonly ComparedCell[],
): { rows: TogetherRow[]; pairs: PairRow[] } {
  const namesOf = (cells: readonly ComparedCell[]) => [...new Set(cells.map(({ quantity }) => quantity))];
  const rows: TogetherRow[] = [];
  const pairs: PairRow[] = [];
  for (const property of namesOf(properties)) {
    for (const quantity of namesOf(indices)) {
      const own = pairsOf(
        indices.filter((cell) => cell.quantity === quantity),
        properties.filter((cell) => cell.quantity === property),
      );
      pairs.push(...own);
      const mixes = [...new Set(own.map(({ mix }) => mix))];
      for (const mix of mixes)
        rows.push(
          ...rowsOf(
            own.filter((pair) => pair.mix === mix),
            mix,
          ),
        );
      if (mixes.length > 1) rows.push(...rowsOf(own, null));
    }
  }
  return { rows, pairs };
}

/** Cells of one index and one property that have both, with their differences from the mean of their age. */
function pairsOf(indices: readonly ComparedCell[], properties: readonly ComparedCell[]): PairRow[] {
  const byKey = new Map(indices.map((cell) => [JSON.stringify(cellKey(cell)), cell]));
  const pairs = properties.flatMap((property): PairRow[] => {
    const index = byKey.get(JSON.stringify(cellKey(property)));
    if (index === undefined || index.value === null || property.value === null) return [];
    const { mix, curing, curing_d, age_d } = index;
    return [
      {
        ...{ mix, curing, curing_d, age_d, property: property.quantity, unit: property.unit, quantity: index.quantity },
        n_index: index.specimens.length,
        index: index.value,
        n_property: property.specimens.length,
        value: property.value,
        index_less_age: null,
        value_less_age: null,
      },
    ];
  });
  pairs.sort((a, b) => compareKeys(cellKey(a), cellKey(b)));
  return pairs.map((pair) => {
    const group = pairs.filter((other) => groupOf(other) === groupOf(pair));
    if (group.length < 2) return pair;
    return {
      ...pair,
      index_less_age: pair.index - mean(group.map(({ index }) => index)),
      value_less_age: pair.value - mean(group.map(({ value }) => value)),
    };
  });
}

function groupOf({ mix, age_d }: PairRow): string {
  return JSON.stringify([mix, minutesOf(age_d)]);
}

function rowsOf(pairs: readonly PairRow[], mix: string | null): TogetherRow[] {
  const [first] = pairs;
  if (first === undefined) return [];
  const { property, unit, quantity } = first;
  const x = pairs.map(({ index }) => index);
  const y = pairs.map(({ value }) => value);
  const ages = pairs.map(groupOf);
  return (["age", "none"] as const).flatMap((adjusted_for) =>
    ([pearson, spearman] as const).map((correlation): TogetherRow => {
      const method = correlation === pearson ? "pearson" : "spearman";
      const found = correlation(x, y, adjusted_for === "age" ? { groups: ages } : {});
      const head = { property, unit, quantity, mix, adjusted_for, method } as const;
      if ("missing" in found) {
        const members = adjusted_for === "age" ? membersOf(ages) : { cells: pairs.length, groups: new Set(ages).size };
        const none = { r: null, lo95: null, hi95: null, p: null, exact: null };
        const verdict = found.missing === "no-scatter" ? "no-scatter" : "too-few-cells";
        return { ...head, n_cells: members.cells, n_groups: members.groups, ...none, verdict };
      }
      const { r, n, p, exact, interval, groups } = found;
      const known = "missing" in interval ? null : interval;
      return {
        ...head,
        n_cells: n,
        n_groups: adjusted_for === "age" ? groups : new Set(ages).size,
        r,
        lo95: known?.low ?? null,
        hi95: known?.high ?? null,
        p,
        exact,
        verdict: p > ALPHA ? "not shown" : r > 0 ? "rise together" : "run against each other",
      };
    }),
  );
}

/** The only cell of an age says nothing once the age's mean is taken. */
function membersOf(ages: readonly string[]): { cells: number; groups: number } {
  const several = [...new Set(ages)].filter((age) => ages.filter((one) => one === age).length > 1);
  return { cells: ages.filter((age) => several.includes(age)).length, groups: several.length };
}
