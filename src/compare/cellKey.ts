import type { CellKey } from "../protocol/types.ts";

/** Age in whole minutes, the form in which ages are compared. */
export function minutesOf(age_d: number | null): number | null {
  return age_d === null ? null : Math.round(age_d * 1440);
}

/** What makes a cell, in the order in which cells are sorted; ages as whole minutes, days of curing as written. */
export function cellKey({ mix, curing, curing_d, age_d }: CellKey): (string | number | null)[] {
  return [mix, curing, curing_d === null ? null : Number(curing_d.toPrecision(9)), minutesOf(age_d)];
}
