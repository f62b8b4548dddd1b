import { fsum } from "d3-array";
import { finite } from "./finite.ts";

/**
 * Arithmetic mean, from an exactly rounded sum: many equal leading digits cost no accuracy.
 *
 * @throws {RangeError} No values.
 * @throws {TypeError} A value that is not a finite number.
 * Example: `mean([12.1, 12.3, 12.5])` is `12.3`.
 */
export function mean(values: Iterable<number>): number {
  const list = finite(values, { atLeast: 1, what: "a mean" });
  const first = list[0]!;
  // The sum of equal values is rounded, their mean must not be: what does not scatter would seem to.
  return list.every((value) => value === first) ? first : fsum(list) / list.length;
}
