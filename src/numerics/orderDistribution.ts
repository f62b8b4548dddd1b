import { finite } from "./finite.ts";

/**
 * Exact distribution of the number of pairs in rising order, if nothing but chance orders the values: how often a value of
 * a later group exceeds one of an earlier group. Groups of one give the distribution of Kendall's S (2·pairs − all pairs),
 * two groups that of Mann and Whitney's U, more of them that of Jonckheere's J. The roles may be changed: n distinct
 * values in time, of which some are equal, are groups as large as the ties.
 *
 * Groups are joined one by one, and the numbers of pairs add up: the distribution of U for each join (H. B. Mann and D. R.
 * Whitney, Ann Math Stat 18:50–60, 1947, their recurrence) folded with what is there (A. R. Jonckheere, Biometrika
 * 41:133–145, 1954). Only positive numbers are added: every probability keeps 12 digits.
 *
 * @param sizes Number of values of each group, no two values equal.
 * @returns Probability of 0, 1, … pairs, up to the largest number possible.
 * @throws {RangeError} A size that is not a whole number of one or more.
 * @throws {TypeError} A size that is not a finite number.
 * @example
 * ```ts
 * // Four ages: only 1 of 24 orders is the rising one, so that two-sided nothing below 0.083 can be reached.
 * if (Math.abs(orderDistribution([1, 1, 1, 1])[6]! - 1 / 24) > 1e-15) throw new Error("6 rising pairs of 6");
 * ```
 */
export function orderDistribution(sizes: Iterable<number>): Float64Array {
  const list = finite(sizes, { atLeast: 0, what: "the sizes of groups" });
  const wrong = list.find((size) => !(Number.isInteger(size) && size >= 1));
  if (wrong !== undefined) throw new RangeError(`Give whole group sizes of one or more, not ${wrong}`);
  let joined = 0;
  let distribution: Float64Array = Float64Array.of(1);
  for (const size of list) {
    distribution = fold(distribution, pairsOfTwo(joined, size));
    joined += size;
  }
  return distribution;
}

/** Probabilities of U for groups of m and n: the largest value of all belongs to the second group with probability n/(m + n). */
function pairsOfTwo(m: number, n: number): Float64Array {
  if (m === 0 || n === 0) return Float64Array.of(1);
  /** Row of the group sizes (i, j) for j = 0…n, i being counted up. */
  let row = Array.from({ length: n + 1 }, () => Float64Array.of(1));
  for (let i = 1; i <= m; i++) {
    const next: Float64Array<ArrayBuffer>[] = [Float64Array.of(1)];
    for (let j = 1; j <= n; j++) {
      const here = new Float64Array(i * j + 1);
      // Largest of the second group: it exceeds all i of the first; largest of the first: it adds no pair.
      const second = j / (i + j);
      for (const [pairs, p] of next[j - 1]!.entries()) here[pairs + i]! += second * p;
      for (const [pairs, p] of row[j]!.entries()) here[pairs]! += (1 - second) * p;
      next.push(here);
    }
    row = next;
  }
  return row[n]!;
}

/** Distribution of the sum of two independent whole numbers. */
function fold(a: Float64Array, b: Float64Array): Float64Array {
  const sum = new Float64Array(a.length + b.length - 1);
  for (let i = 0; i < a.length; i++) {
    for (let j = 0; j < b.length; j++) sum[i + j]! += a[i]! * b[j]!;
  }
  return sum;
}
