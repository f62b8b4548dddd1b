import { extent, group, sum } from "d3-array";
import { finite } from "./finite.ts";
import { fisherInterval } from "./fisherInterval.ts";
import { mean } from "./mean.ts";
import type { Interval, Missing } from "./missing.ts";
import { type PermutationOptions, type PermutationTest, permutationTest } from "./permutationTest.ts";
import { ranks } from "./ranks.ts";
import { withinGroups } from "./withinGroups.ts";

/** Options of a correlation. */
export interface CorrelationOptions extends PermutationOptions {
  /** Level of the interval. @default 0.95 */
  level?: number;
}

/** A correlation with its interval and p value. */
export interface Correlation extends PermutationTest {
  /** −1…1. */
  r: number;
  /** Pairs of values that took part. */
  n: number;
  /** Groups whose means were taken; one where no groups were given. */
  groups: number;
  /** Degrees of freedom: n − groups − 1. */
  df: number;
  interval: Interval | Missing;
}

/**
 * What Pearson's and Spearman's correlation have in common: differences from group means, the correlation of them or of
 * their ranks, the interval with n less groups but one in place of n, the permutation test inside groups.
 *
 * @returns `too-few-values` where df is below 1; `no-scatter` where all x, or all y, are equal (inside their groups).
 * @throws {TypeError} A value that is not a finite number.
 * @throws {RangeError} Another number of y or of groups than of x, or level outside 0…1.
 */
export function correlate(
  x: Iterable<number>,
  y: Iterable<number>,
  options: CorrelationOptions & { ranked: boolean },
): Correlation | Missing {
  const { level = 0.95, ranked, groups: named, ...asked } = options;
  const across = finite(x, { atLeast: 0, what: "a correlation" });
  const up = finite(y, { atLeast: 0, what: "a correlation" });
  const names = named ? [...named] : across.map(() => 0);
  if (up.length !== across.length || names.length !== across.length) {
    throw new RangeError(`Give as many y and groups as x: ${up.length} and ${names.length} for ${across.length}`);
  }
  if (!(level > 0 && level < 1)) throw new RangeError(`Give a level between 0 and 1, not ${level}`);
  // The only pair of a group is its own mean.
  const members = [...group(across.keys(), (i) => names[i]!).values()].filter((list) => list.length > 1);
  const kept = members.flat();
  const n = kept.length;
  const df = n - members.length - 1;
  if (df < 1) return { missing: "too-few-values" };
  // Before means are taken: their rounding would look like scatter.
  const scatters = (values: number[]) =>
    members.some((list) => {
      const [low, high] = extent(list, (i) => values[i]!);
      return low !== high;
    });
  if (!scatters(across) || !scatters(up)) return { missing: "no-scatter" };

  const groups = kept.map((i) => names[i]!);
  const [a, b] = [across, up].map((values) => {
    const { differences } = withinGroups(
      kept.map((i) => values[i]!),
      groups,
    );
    return scaled(ranked ? centred(ranks(differences.map(withoutRounding(differences)))) : differences);
  }) as [number[], number[]];
  const product = (p: number[], q: number[]) => sum(p, (value, i) => value * q[i]!);
  const r = Math.max(-1, Math.min(1, product(a, b) / Math.sqrt(product(a, a) * product(b, b))));
  const interval = fisherInterval(r, { n: n - members.length + 1, level, inflation: ranked ? 1 + r ** 2 / 2 : 1 });
  return { r, n, groups: members.length, df, interval, ...permutationTest(a, b, { ...asked, groups }) };
}

function centred(values: number[]): number[] {
  const middle = mean(values);
  return values.map((value) => value - middle);
}

/** To a largest size of one: squares of huge or tiny units must stay in range. */
function scaled(values: number[]): number[] {
  const largest = Math.max(...values.map(Math.abs));
  return values.map((value) => value / largest);
}

/** Differences that are equal but for the rounding of a mean must share their rank. */
function withoutRounding(values: number[]): (value: number) => number {
  const unit = Math.max(...values.map(Math.abs)) * 1e-12;
  return (value) => Math.round(value / unit);
}
