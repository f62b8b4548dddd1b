import { type ByteSink, makeRoom } from "./byteSink.ts";
import { formatNumber } from "./formatNumber.ts";

/** More than the longest number, `-1.23456789e-308`, and than nine digits after fifteen zeros. */
const LONGEST = 32;
const [MINUS, POINT, ZERO] = [0x2d, 0x2e, 0x30];

/**
 * Writes what {@link formatNumber} says, digit by digit: most of an output are numbers, and a text for each of them would be
 * garbage a moment later.
 *
 * @throws RangeError for NaN and infinities.
 */
export function writeNumber(sink: ByteSink, value: number): void {
  makeRoom(sink, LONGEST);
  const size = Math.abs(value);
  if (size < 1e9 && Math.floor(size) === size) {
    if (value < 0) sink.bytes[sink.end++] = MINUS;
    writeWhole(sink, size);
    return;
  }
  if (size >= 1e-6 && size < 1e6) {
    const decimals = decimalsOf(size);
    const product = size * POWERS[decimals]!;
    const scaled = Math.round(product);
    // Halfway between two decimals the exact digits decide.
    if (Math.abs(product - scaled) < 0.499999) {
      if (value < 0) sink.bytes[sink.end++] = MINUS;
      writeDecimal(sink, scaled, decimals);
      return;
    }
  }
  const text = formatNumber(value);
  for (let i = 0; i < text.length; i++) sink.bytes[sink.end++] = text.charCodeAt(i);
}

/** Powers of ten that are exact as doubles. */
const POWERS = Float64Array.from({ length: 16 }, (_, i) => Number(`1e${i}`));

/** Digits after the point where nine are significant; 1e-6 ≤ size < 1e6. */
function decimalsOf(size: number): number {
  let decimals = 9;
  for (let bound = 1; size >= bound; bound *= 10) decimals--;
  for (let i = 1; i <= 6 && size * POWERS[i]! < 1; i++) decimals++;
  return decimals;
}

/** A whole number below 2³¹ divided by a power of ten, without zeros at the end. */
function writeDecimal(sink: ByteSink, scaled: number, decimals: number): void {
  let rest = scaled | 0;
  let digits = decimals;
  while (digits > 0 && rest % 10 === 0) {
    rest = (rest / 10) | 0;
    digits--;
  }
  const whole = digits < 10 ? (rest / POWERS[digits]!) | 0 : 0;
  writeWhole(sink, whole);
  if (digits === 0) return;
  const { bytes } = sink;
  bytes[sink.end] = POINT;
  rest -= whole * POWERS[digits]!;
  for (let at = sink.end + digits; at > sink.end; at--) {
    const tens = (rest / 10) | 0;
    bytes[at] = ZERO + rest - 10 * tens;
    rest = tens;
  }
  sink.end += digits + 1;
}

/** A whole number from 0 to below 2³¹. */
function writeWhole(sink: ByteSink, value: number): void {
  const { bytes } = sink;
  let digits = 1;
  for (let bound = 10; value >= bound; bound *= 10) digits++;
  let rest = value | 0;
  for (let at = sink.end + digits - 1; at >= sink.end; at--) {
    const tens = (rest / 10) | 0;
    bytes[at] = ZERO + rest - 10 * tens;
    rest = tens;
  }
  sink.end += digits;
}
