/** Powers of ten that are exact as doubles. */
const powers = Float64Array.from({ length: 23 }, (_, i) => Number(`1e${i}`));
const found = new Float64Array(1 << 20);

/**
 * The floor of reading: bytes → numbers and nothing else. Anything that is not part of a plain decimal number parts two of them;
 * no columns, no units, no exponents, no check of digits that a double cannot hold.
 *
 * @param {Uint8Array} bytes A table with one line of headings.
 * @returns {number} How many numbers.
 */
export function scan(bytes) {
  const { length } = bytes;
  let count = 0;
  let at = bytes.indexOf(10) + 1;
  while (at < length) {
    let byte = bytes[at];
    const negative = byte === 45;
    if (negative) byte = bytes[++at];
    let mantissa = 0;
    let digits = 0;
    let decimals = -1;
    for (; at < length; byte = bytes[++at]) {
      if (byte >= 48 && byte <= 57) {
        mantissa = 10 * mantissa + (byte - 48);
        digits++;
        if (decimals >= 0) decimals++;
      } else if (byte === 46) decimals = 0;
      else break;
    }
    if (digits > 0) found[count++] = (negative ? -mantissa : mantissa) / (decimals > 0 ? powers[decimals] : 1);
    at++;
  }
  return count;
}
