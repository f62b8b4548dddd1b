import { rollup } from "d3-array";
import { finite } from "./finite.ts";
import { mean } from "./mean.ts";

/** Values less the mean of their group. */
export interface WithinGroups {
  /** In the order of the values, their unit; zero for the only value of a group. */
  differences: number[];
  /** Number of groups. */
  groups: number;
  /** Number of values less number of groups: what is left after the means have been taken. */
  df: number;
}

/**
 * Differences from the mean of each group: what is left of a relation when the groups themselves are put aside, for instance
 * the ages, with which everything grows (pooled within-class relation; G. W. Snedecor and W. G. Cochran, Statistical
 * Methods, 8th ed., 1989).
 *
 * @param values Any unit.
 * @param groups The group of each value, as many as values.
 * @throws {TypeError} A value that is not a finite number.
 * @throws {RangeError} Another number of groups than of values.
 * @example
 * ```ts
 * const { differences, df } = withinGroups([10, 14, 31, 29], ["1d", "1d", "28d", "28d"]);
 * if (differences.join() !== "-2,2,1,-1" || df !== 2) throw new Error("two means are taken");
 * ```
 */
export function withinGroups(values: Iterable<number>, groups: Iterable<string | number>): WithinGroups {
  const list = finite(values, { atLeast: 0, what: "differences within groups" });
  const names = [...groups];
  if (names.length !== list.length) {
    throw new RangeError(`Give one group per value: ${names.length} for ${list.length}`);
  }
  const means = rollup(
    list.keys(),
    (members) => mean(members.map((i) => list[i]!)),
    (i) => names[i]!,
  );
  const differences = list.map((value, i) => value - means.get(names[i]!)!);
  return { differences, groups: means.size, df: list.length - means.size };
}
