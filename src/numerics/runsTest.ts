import { finite } from "./finite.ts";

/** Fewer values of one sign than this, and the number of runs tells nothing. */
const FEWEST = 5;

/**
 * Do signs change as often as chance lets them? Number of runs of one sign, less its mean, over its standard deviation
 * (A. Wald and J. Wolfowitz, Ann Math Stat 11:147–162, 1940): near zero for independent values, far below zero where
 * neighbours go together. Zeros have no sign and are passed over.
 *
 * @returns In standard deviations; null with fewer than five values of either sign.
 * @throws {TypeError} A value that is not a finite number.
 * Example: `runsTest([1, 1, 1, 1, 1, -1, -1, -1, -1, -1])` is `-2.683…`: two runs where six are expected.
 */
export function runsTest(values: Iterable<number>): number | null {
  const signs = finite(values, { atLeast: 0, what: "a runs test" })
    .filter((value) => value !== 0)
    .map(Math.sign);
  const plus = signs.filter((sign) => sign > 0).length;
  const minus = signs.length - plus;
  if (Math.min(plus, minus) < FEWEST) return null;
  const n = plus + minus;
  const runs = signs.filter((sign, i) => sign !== signs[i - 1]).length;
  const pairs = 2 * plus * minus;
  const mean = 1 + pairs / n;
  const variance = (pairs * (pairs - n)) / (n * n * (n - 1));
  return (runs - mean) / Math.sqrt(variance);
}
