import { finite } from "./finite.ts";

/**
 * The correlations of comparisons with one reference, as the numbers whose products they are: λ = 1/√(1 + n₀/n)
 * (C. W. Dunnett, Biometrics 20:482–491, 1964). Two comparisons have the mean of the reference in common.
 *
 * @param sizes Number of values of each compared group, 1 or more.
 * @param reference Number of values of the reference, 1 or more.
 * @throws {RangeError} A number of values below one.
 * @throws {TypeError} A number that is not finite.
 * @example
 * ```ts
 * const [a, b] = dunnettLambda([3, 3], 3);
 * if (Math.abs(a! * b! - 0.5) > 1e-15) throw new Error("groups of one size: a correlation of a half");
 * ```
 */
export function dunnettLambda(sizes: Iterable<number>, reference: number): number[] {
  const list = finite([reference, ...sizes], { atLeast: 1, what: "the sizes of groups" });
  const wrong = list.find((size) => size < 1);
  if (wrong !== undefined) throw new RangeError(`Give groups of one value or more, not of ${wrong}`);
  return list.slice(1).map((size) => 1 / Math.sqrt(1 + reference / size));
}
