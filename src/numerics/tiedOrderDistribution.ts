import { sum } from "d3-array";

/**
 * Exact distribution of the number of half pairs in rising order between groups, if chance alone deals the values out and
 * some values are equal: 2 for a pair in rising order, 1 for an equal pair (A. R. Jonckheere, Biometrika 41:133–145, 1954;
 * conditional on the ties, as in M. Hollander, D. A. Wolfe and E. Chicken, Nonparametric Statistical Methods, 3rd ed., 6.2).
 *
 * Every way of dealing out is counted: the distinct values are dealt from the smallest up, and all deals that leave the
 * groups equally full are kept together, so that there are no more states than ∏(size + 1).
 *
 * @param sizes Number of values of each group.
 * @param ties How often each distinct value occurs, from the smallest up; adds up to the sum of the sizes.
 * @param options `budget`: states times half pairs at most, about what takes a second. @default 5e6
 * @returns Probability of 0, 1, … half pairs; null where that exceeds the budget.
 * @throws {RangeError} Sums that differ.
 * @example
 * ```ts
 * // Two groups of one with equal values: always half a pair.
 * if (tiedOrderDistribution([1, 1], [2])![1] !== 1) throw new Error("one outcome");
 * ```
 */
export function tiedOrderDistribution(
  sizes: readonly number[],
  ties: readonly number[],
  options: { budget?: number } = {},
): Float64Array | null {
  const { budget = 5e6 } = options;
  const n = sum(sizes);
  const values = sum(ties);
  if (n !== values) throw new RangeError(`The groups hold ${n} values, the ties add up to ${values}`);
  const outcomes = n * n - sum(sizes, (size) => size * size) + 1;
  const states = sizes.reduce((product, size) => product * (size + 1), 1);
  if (states * outcomes > budget) return null;

  /** Place value of each group in the number of a state. */
  const places = sizes.map((_, group) => sizes.slice(0, group).reduce((product, size) => product * (size + 1), 1));
  let layer = new Map<number, Float64Array>([
    [0, Float64Array.from({ length: outcomes }, (_, i) => (i === 0 ? 1 : 0))],
  ]);
  let left = n;
  for (const count of ties) {
    const next = new Map<number, Float64Array>();
    for (const [state, distribution] of layer) {
      const full = sizes.map((size, group) => Math.floor(state / places[group]!) % (size + 1));
      for (const deal of dealsOf(
        count,
        sizes.map((size, group) => size - full[group]!),
      )) {
        const target = state + sum(deal, (dealt, group) => dealt * places[group]!);
        const ways = deal.reduce((product, dealt, group) => product * choose(sizes[group]! - full[group]!, dealt), 1);
        const arrived = next.get(target) ?? new Float64Array(outcomes);
        next.set(target, arrived);
        const p = ways / choose(left, count);
        const gain = halfPairs(full, deal);
        for (let i = 0; i + gain < outcomes; i++) arrived[i + gain]! += p * distribution[i]!;
      }
    }
    layer = next;
    left -= count;
  }
  return [...layer.values()][0]!;
}

/** Half pairs that a deal adds: two for each smaller value in an earlier group, one for each equal one. */
function halfPairs(full: readonly number[], deal: readonly number[]): number {
  let smaller = 0;
  let equal = 0;
  let gain = 0;
  for (const [group, dealt] of deal.entries()) {
    gain += dealt * (2 * smaller + equal);
    smaller += full[group]!;
    equal += dealt;
  }
  return gain;
}

/** All ways to put `count` values into groups that have `room` left. */
function dealsOf(count: number, room: readonly number[]): number[][] {
  const [first, ...others] = room;
  if (first === undefined) return count === 0 ? [[]] : [];
  const deals: number[][] = [];
  for (let here = 0; here <= Math.min(first, count); here++) {
    for (const rest of dealsOf(count - here, others)) deals.push([here, ...rest]);
  }
  return deals;
}

function choose(n: number, k: number): number {
  let ways = 1;
  for (let i = 1; i <= k; i++) ways = (ways * (n - k + i)) / i;
  return ways;
}
