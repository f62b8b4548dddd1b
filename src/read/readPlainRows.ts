import { longNumber } from "./longNumber.ts";
import { minutesAndSeconds } from "./minutesAndSeconds.ts";

/** What a scan of rows writes into, and what it needs to know. */
export interface Sheet {
  bytes: Uint8Array;
  /** Codes of delimiter and decimal mark. */
  delimiter: number;
  mark: number;
  /** Blanks are the delimiter. */
  blank: boolean;
  /** How to take each column: one of {@link ways}. */
  way: Uint8Array;
  columns: Float64Array[];
  /** Where the next line begins, and how many rows there are so far. */
  at: number;
  rows: number;
  /** Most decimals of numbers without exponents, fewest of numbers with. */
  most: Int32Array;
  fewest: Int32Array;
  /** Decimals of the row under the scan, less the exponent; and whether it has one. */
  decimals: Int32Array;
  exponential: Uint8Array;
}

/** Ways to take a column: pass over it, expect it empty, a number, `h:min:s`; anything else is for the careful reader. */
export const ways = { skip: 0, empty: 1, number: 2, clock: 3, other: 4 } as const;

/** `fewest` of a column without exponents. */
export const noExponent = 10_000;
/** Powers of ten that are exact as doubles. */
const powers = Float64Array.from({ length: 23 }, (_, i) => Number(`1e${i}`));
/** Below it every integer is exact as a double. */
const exact = 2 ** 53;

/**
 * Scans plain rows, byte by byte and without making strings, from `sheet.at` to the first line that is not a plain row, or until
 * the columns are full; `sheet.at` and `sheet.rows` say how far it came. A number with a mantissa below 2^53 and an exponent of
 * at most 22 is one operation on two exact doubles and therefore correctly rounded (Clinger, Proc. PLDI 1990, 92–101); others
 * go through `Number`.
 *
 * @param stop one past the last line break of the text: it ends every loop
 */
export function readPlainRows(sheet: Sheet, stop: number): void {
  const { bytes, delimiter, mark, blank, way, columns, most, fewest, decimals, exponential } = sheet;
  const last = way.length - 1;
  const capacity = columns[0]!.length;
  const numbers = way.reduce((sum, how) => sum + (how > ways.empty ? 1 : 0), 0);
  let at = sheet.at;
  for (let row = sheet.rows; row < capacity && at < stop; row++) {
    let byte = bytes[at]!;
    let empty = 0;
    for (let c = 0; c <= last; c++) {
      while (byte === 32 || (blank && byte === 9)) byte = bytes[++at]!;
      const how = way[c]!;
      if (how <= ways.empty) {
        const first = at;
        while (byte !== delimiter && byte !== 10 && byte !== 13 && !(blank && byte === 9)) {
          if (byte === 34) return;
          byte = bytes[++at]!;
        }
        // A number where every cell so far was empty is worth a careful look.
        if (how === ways.empty && at !== first) return;
        columns[c]![row] = Number.NaN;
      } else {
        const quoted = byte === 34;
        if (quoted) byte = bytes[++at]!;
        const first = at;
        const negative = byte === 45;
        if (negative || byte === 43) byte = bytes[++at]!;
        let digits = at;
        let mantissa = 0;
        for (let digit = byte - 48; digit >= 0 && digit <= 9; digit = byte - 48) {
          mantissa = 10 * mantissa + digit;
          byte = bytes[++at]!;
        }
        digits = at - digits;
        let power = 0;
        if (byte === mark && (quoted || mark !== delimiter)) {
          const point = ++at;
          byte = bytes[at]!;
          for (let digit = byte - 48; digit >= 0 && digit <= 9; digit = byte - 48) {
            mantissa = 10 * mantissa + digit;
            byte = bytes[++at]!;
          }
          power = point - at;
          digits -= power;
          // "1," may be a number and its delimiter.
          if (power === 0 && mark === 44) return;
        }
        if (digits === 0) {
          // An empty cell; blanks leave none, and everything else without a digit is read carefully.
          if (at !== first || quoted || blank || how !== ways.number) return;
          if (byte !== delimiter && !(c === last && (byte === 10 || byte === 13))) return;
          empty++;
          exponential[c] = 2;
          columns[c]![row] = Number.NaN;
        } else if (how === ways.number) {
          exponential[c] = 0;
          if (byte === 101 || byte === 69) {
            byte = bytes[++at]!;
            const below = byte === 45;
            if (below || byte === 43) byte = bytes[++at]!;
            const point = at;
            let exponent = 0;
            for (let digit = byte - 48; digit >= 0 && digit <= 9; digit = byte - 48) {
              exponent = 10 * exponent + digit;
              byte = bytes[++at]!;
            }
            if (at === point || at - point > 4) return;
            power += below ? -exponent : exponent;
            // Zero has no last digit that counts.
            exponential[c] = mantissa === 0 ? 2 : 1;
          }
          decimals[c] = -power;
          let value: number;
          if (mantissa < exact && power <= 22 && power >= -22) {
            value = power < 0 ? mantissa / powers[-power]! : mantissa * powers[power]!;
            if (negative) value = -value;
          } else {
            value = longNumber(bytes, first, at, mark);
            // 1e999 is no measured value.
            if (value - value !== 0) return;
          }
          columns[c]![row] = value;
        } else {
          if (how !== ways.clock || negative || power !== 0) return;
          const value = 3600 * mantissa + minutesAndSeconds(bytes, at);
          // Fractions and other forms are read carefully.
          if (!(value >= 0)) return;
          at += 6;
          byte = bytes[at]!;
          columns[c]![row] = value;
        }
        if (quoted) {
          if (byte !== 34) return;
          byte = bytes[++at]!;
        }
      }
      if (c < last) {
        if (blank) {
          if (byte !== 32 && byte !== 9) return;
        } else {
          while (byte === 32) byte = bytes[++at]!;
          if (byte !== delimiter) return;
          byte = bytes[++at]!;
        }
      }
    }
    while (byte === 32 || byte === 9 || byte === delimiter) byte = bytes[++at]!;
    if (byte !== 10 && byte !== 13) return;
    // With so few numbers it may be no row at all.
    if (empty > 0 && numbers - empty < 2) return;
    at += byte === 13 && bytes[at + 1] === 10 ? 2 : 1;
    // Only now it is sure that these decimals belong to a row.
    for (let c = 0; c <= last; c++) {
      const written = decimals[c]!;
      if (exponential[c] === 0) {
        if (written > most[c]!) most[c] = written;
      } else if (exponential[c] === 1 && written < fewest[c]!) fewest[c] = written;
    }
    sheet.at = at;
    sheet.rows = row + 1;
  }
}
