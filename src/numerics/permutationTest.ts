import { rollup } from "d3-array";
import { finite } from "./finite.ts";
import { seededRandom } from "./seededRandom.ts";

/** Options of {@link permutationTest}. */
export interface PermutationOptions {
  /** Group of each pair: y are permuted inside their group only. @default one group */
  groups?: Iterable<string | number>;
  /** Permutations up to which all are tried; more are sampled. 9! = 362880 is the last factorial below. @default 400000 */
  exactUpTo?: number;
  /** Random permutations where there are too many to try them all. @default 9999 */
  samples?: number;
  /** Seed of the random permutations. @default 1 */
  seed?: number | string;
}

/** Result of {@link permutationTest}. */
export interface PermutationTest {
  /** Probability that chance pairing brings x and y as close together, or as far apart. */
  p: number;
  /** Permutations that were tried, the one that was measured included; p is a multiple of its inverse. */
  permutations: number;
  /** All of them, not a sample. */
  exact: boolean;
}

/**
 * Do x and y go together more than chance pairs them? Two-sided: the share of the permutations of y for which |Σ(x − x̄)(y − ȳ)|
 * is at least what was measured (R. A. Fisher, The Design of Experiments, 1935; E. J. G. Pitman, Suppl J R Stat Soc
 * 4:225–232, 1937). With values this tests Pearson's correlation, with ranks Spearman's.
 *
 * All permutations are tried where there are few, otherwise a seeded sample in which the measured one counts as one, so that p is
 * never zero and never too small (B. Phipson and G. K. Smyth, Stat Appl Genet Mol Biol 9:39, 2010).
 *
 * @param x Any unit.
 * @param y As many as x.
 * @throws {TypeError} A value that is not a finite number.
 * @throws {RangeError} Another number of y or of groups than of x, none at all, or fewer than one sample.
 * @example
 * ```ts
 * const { p, exact } = permutationTest([1, 2, 3, 4], [2, 4, 6, 8]);
 * if (!exact || p !== 2 / 24) throw new Error("only the rising and the falling order are that strong");
 * ```
 */
export function permutationTest(
  x: Iterable<number>,
  y: Iterable<number>,
  options: PermutationOptions = {},
): PermutationTest {
  const { exactUpTo = 400_000, samples = 9999, seed = 1 } = options;
  const across = centred(x);
  const up = centred(y);
  const n = across.length;
  const names = options.groups ? [...options.groups] : new Array<number>(n).fill(0);
  if (up.length !== n || names.length !== n) {
    throw new RangeError(`Give as many y and groups as x: ${up.length} and ${names.length} for ${n}`);
  }
  if (!(samples >= 1)) throw new RangeError(`Give at least one random permutation, not ${samples}`);
  const groups = [
    ...rollup(
      across.keys(),
      (members) => members,
      (i) => names[i]!,
    ).values(),
  ];
  const all = groups.reduce((product, members) => product * factorial(members.length), 1);
  const measured = across.reduce((sum, value, i) => sum + value * up[i]!, 0);
  // Equal sums in another order differ in the last digits.
  const limit = Math.abs(measured) - 1e-12 * Math.hypot(...across) * Math.hypot(...up);
  const beyond = (sum: number) => Math.abs(sum) >= limit;
  if (all <= exactUpTo) return { p: countAll(across, up, groups, beyond) / all, permutations: all, exact: true };

  const random = seededRandom(seed);
  let hits = 1;
  for (let sample = 0; sample < samples; sample++) {
    for (const members of groups) shuffle(up, members, random.uniform);
    let sum = 0;
    for (let i = 0; i < n; i++) sum += across[i]! * up[i]!;
    if (beyond(sum)) hits++;
  }
  return { p: hits / (samples + 1), permutations: samples + 1, exact: false };
}

function centred(values: Iterable<number>): Float64Array {
  const list = Float64Array.from(finite(values, { atLeast: 1, what: "a permutation test" }));
  const middle = list.reduce((sum, value) => sum + value / list.length, 0);
  return list.map((value) => value - middle);
}

/** Number of permutations inside groups that `beyond` accepts. */
function countAll(x: Float64Array, y: Float64Array, groups: number[][], beyond: (sum: number) => boolean): number {
  const order = groups.flat();
  const groupAt = groups.flatMap((members) => members.map(() => members));
  const used = new Uint8Array(x.length);
  const count = (depth: number, sum: number): number => {
    if (depth === order.length) return beyond(sum) ? 1 : 0;
    const value = x[order[depth]!]!;
    let hits = 0;
    for (const partner of groupAt[depth]!) {
      if (used[partner] === 1) continue;
      used[partner] = 1;
      hits += count(depth + 1, sum + value * y[partner]!);
      used[partner] = 0;
    }
    return hits;
  };
  return count(0, 0);
}

/** Fisher and Yates: every order of the members equally likely. */
function shuffle(values: Float64Array, members: readonly number[], uniform: () => number): void {
  for (let i = members.length - 1; i > 0; i--) {
    const j = Math.floor(uniform() * (i + 1));
    const [a, b] = [members[i]!, members[j]!];
    const kept = values[a]!;
    values[a] = values[b]!;
    values[b] = kept;
  }
}

function factorial(n: number): number {
  return n < 2 ? 1 : n * factorial(n - 1);
}
