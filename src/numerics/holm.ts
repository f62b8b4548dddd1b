import { finite } from "./finite.ts";

/**
 * p values of a family of tests, adjusted so that the probability of even one false finding is held (S. Holm,
 * Scandinavian Journal of Statistics 6:65–70, 1979): the smallest p times the number of tests, the next times one less,
 * and none smaller than the one before. Valid whatever the tests have in common.
 *
 * @param ps One p value per test of the family.
 * @returns Adjusted p values in the same order; empty for an empty family.
 * @throws {TypeError} A value that is not a finite number.
 * @throws {RangeError} A value outside 0…1.
 * @example
 * ```ts
 * const [a, b, c] = holm([0.01, 0.04, 0.03]);
 * if (a !== 0.03 || b !== 0.06 || c !== 0.06) throw new Error("0.01 × 3, 0.03 × 2, and no less for 0.04");
 * ```
 */
export function holm(ps: Iterable<number>): number[] {
  const list = finite(ps, { atLeast: 0, what: "Holm's adjustment" });
  const wrong = list.find((p) => p < 0 || p > 1);
  if (wrong !== undefined) throw new RangeError(`Give p values between 0 and 1, not ${wrong}`);
  const adjusted = new Array<number>(list.length);
  let floor = 0;
  const rising = list.map((p, at) => ({ p, at })).sort((a, b) => a.p - b.p);
  for (const [rank, { p, at }] of rising.entries()) {
    floor = Math.max(floor, Math.min(1, p * (list.length - rank)));
    adjusted[at] = floor;
  }
  return adjusted;
}
