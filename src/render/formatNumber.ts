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
  const size = Math.abs(value);
  if (size < 1e9 && Number.isInteger(value)) return String(value + 0);
  if (size >= 1e-3 && size < 1e6) {
    // Nine digits as a whole number over an exact power of ten: the quotient is the double nearest to that decimal, so that its
    // shortest form is the decimal itself.
    let decimals = 9;
    for (let bound = 1; size >= bound; bound *= 10) decimals--;
    for (let bound = 0.1; size < bound; bound /= 10) decimals++;
    const power = POWERS[decimals]!;
    const scaled = Math.round(size * power);
    // Halfway between two decimals the exact digits decide.
    if (Math.abs(size * power - scaled) < 0.499999) return String(value < 0 ? -scaled / power : scaled / power);
  }
  return String(Number(value.toPrecision(9)) + 0);
}

/** Powers of ten that are exact as doubles. */
const POWERS = Float64Array.from({ length: 16 }, (_, i) => Number(`1e${i}`));
