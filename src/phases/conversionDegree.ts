/**
 * Degree of conversion of calcium aluminate cement, %: 100/(1 + (1/K)·CAH10/AH3), from the sizes of the two peaks
 * (Ramachandran et al., Handbook of Thermal Analysis of Construction Materials, 2002, p. 411). 3 CAH10 → C3AH6 + 2 AH3 + 18 H is
 * the reaction R11.
 *
 * @param cah10 Size of the peak of CAH10, not negative.
 * @param ah3 Size of the peak of AH3, not negative; in the same unit.
 * @param options `K`: constant of the instrument. @default 1
 * @throws {RangeError} A size below zero, both zero, or a K that is not above zero.
 *
 * @example
 * ```ts
 * import { conversionDegree } from "tg-hydrates";
 * if (conversionDegree(3, 3) !== 50) throw new Error("equal amounts are half converted");
 * ```
 */
export function conversionDegree(cah10: number, ah3: number, options: { K?: number } = {}): number {
  const { K = 1 } = options;
  if (!(cah10 >= 0 && ah3 >= 0 && cah10 + ah3 > 0)) {
    throw new RangeError(`Give peak sizes of zero or more, not both zero, not ${cah10} and ${ah3}`);
  }
  if (!(K > 0)) throw new RangeError(`Give a constant above 0 at K, not ${K}`);
  return (100 * ah3) / (ah3 + cah10 / K);
}
