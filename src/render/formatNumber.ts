/**
 * A number as every output writes it: 9 significant digits in the shortest form (engines differ in the last bits), with an
 * exponent only below 1e-6 and from 1e21 (ECMAScript, Number::toString); −0 is 0.
 *
 * @throws RangeError for NaN and infinities: a missing number is `null` and never reaches this function.
 *
 * @example
 * ```ts
 * import { formatNumber } from "tg-hydrates";
 * if (formatNumber(0.1 + 0.2) !== "0.3") throw new Error("nine digits hide the last bits");
 * ```
 */
export function formatNumber(value: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`Write finite numbers only, not ${value}`);
  return String(Number(value.toPrecision(9)) + 0);
}
