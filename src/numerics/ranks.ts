import { finite } from "./finite.ts";

/**
 * Ranks from 1 for the smallest value; equal values share the mean of their ranks.
 *
 * @throws {TypeError} A value that is not a finite number.
 * @example
 * ```ts
 * if (ranks([20, 10, 20]).join() !== "2.5,1,2.5") throw new Error("20 has the ranks 2 and 3");
 * ```
 */
export function ranks(values: Iterable<number>): number[] {
  const list = finite(values, { atLeast: 0, what: "ranks" });
  const order = list.map((value, at) => ({ value, at })).sort((a, b) => a.value - b.value);
  const result = new Array<number>(list.length);
  for (let first = 0, last = 0; first < order.length; first = last) {
    while (last < order.length && order[last]!.value === order[first]!.value) last++;
    for (let i = first; i < last; i++) result[order[i]!.at] = (first + 1 + last) / 2;
  }
  return result;
}
