import { isBounded } from "../phases/isBounded.ts";
import { plausibility } from "../phases/plausibility.ts";
import type { AmountsGiven } from "../phases/plausibilityTypes.ts";
import type { Mix } from "../phases/types.ts";
import { WATER_GONE_C } from "../phases/waterGone.ts";
import type { CellKey } from "../protocol/types.ts";
import type { AgeRow, AmountRow, PlausibilityRow } from "./types.ts";

/**
 * Holds the amounts of every cell against what its binder can give. Only cells of a mix whose binder the mix table describes, with
 * something to hold against it.
 *
 * @param options `carbonated`: cells in whose regime carbonate was found to rise; `ends`: upper edges of the windows, °C.
 */
export function plausibilityRows(
  cells: { ages: readonly AgeRow[]; amounts: readonly AmountRow[] },
  options: { mixes: readonly Mix[]; carbonated: readonly CellKey[]; ends: ReadonlyMap<string, number> },
): PlausibilityRow[] {
  const { mixes, carbonated, ends } = options;
  const regimeOf = ({ mix, curing, curing_d }: CellKey) => JSON.stringify([mix, curing, curing_d]);
  const regimes = new Set(carbonated.map(regimeOf));
  const table = new Map(mixes.map((mix) => [mix.mix, mix]));
  const given = new Map<string, { row: AgeRow | AmountRow; amounts: AmountsGiven }>();
  const of = (row: AgeRow | AmountRow): AmountsGiven => {
    const key = JSON.stringify([row.mix, row.curing, row.curing_d, row.age_d]);
    const known = given.get(key) ?? { row, amounts: {} };
    given.set(key, known);
    return known.amounts;
  };
  for (const row of cells.ages) {
    const amounts = of(row);
    const end = ends.get(row.window);
    if (row.basis !== "ignited" || end === undefined || end > WATER_GONE_C || "missing" in row.index) continue;
    const { value, u } = row.index;
    if (amounts.bound_water === undefined || value > amounts.bound_water.value) amounts.bound_water = { value, u };
  }
  for (const row of cells.amounts) {
    const { phase, amount } = row;
    if (row.basis !== "ignited" || "missing" in amount) continue;
    if (isBounded(phase)) of(row)[phase] = { value: amount.value, u: amount.u };
  }
  return [...given.values()].flatMap(({ row, amounts }) => {
    const mix = row.mix === null ? undefined : table.get(row.mix);
    if (!mix || Object.keys(amounts).length === 0) return [];
    const { curing, curing_d, age_d } = row;
    const found = plausibility(mix, amounts, { carbonated: regimes.has(regimeOf(row)) });
    return found ? [{ ...found, mix: row.mix!, curing, curing_d, age_d }] : [];
  });
}
