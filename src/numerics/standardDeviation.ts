import { fsum } from "d3-array";
import { finite } from "./finite.ts";
import { mean } from "./mean.ts";

/**
 * Standard deviation of a sample: divided by n − 1 (Bessel's correction), the scatter of one value about the mean.
 *
 * @throws {RangeError} Fewer than two values.
 * @throws {TypeError} A value that is not a finite number.
 * Example: `standardDeviation([12.1, 12.3, 12.5])` is `0.2`.
 */
export function standardDeviation(values: Iterable<number>): number {
  const list = finite(values, { atLeast: 2, what: "a standard deviation" });
  const centre = mean(list);
  return Math.sqrt(fsum(list, (value) => (value - centre) ** 2) / (list.length - 1));
}
