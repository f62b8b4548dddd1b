import { parseUnit } from "./parseUnit.ts";

/** What one cell holds. */
export interface Cell {
  kind: "number" | "clock" | "short-clock" | "date" | "missing" | "text";
  /** The number; of a clock or a date in s; NaN for `missing` and `text`. */
  value: number;
  /** Decimals written, less the exponent. */
  decimals: number;
  /** Written with an exponent. */
  scientific: boolean;
  /** Written with thousands separators. */
  grouped: boolean;
  /** Unit written behind the number; empty where there is none. */
  unit: string;
}

const missingMarks =
  /^(?:|[-–—*?.…_]+|[-+]?nan|[-+]?inf(?:inity)?|n\.?\/?a\.?|n\.?d\.?|nil|none|null|missing|fehlt|overflow|underflow|ovf|ovr|#n\/a!?|#num!|#value!|#div\/0!|#ref!|-?1\.#(?:ind|inf|qnan|snan)0*)$/i;
const point = /^[-+]?(?:\d+(?:\.(\d*))?|\.(\d+))(?:[ed]([-+]?\d{1,4}))?$/i;
const comma = /^[-+]?(?:\d+(?:,(\d+))?|,(\d+))(?:[ed]([-+]?\d{1,4}))?$/i;
const pointGrouped = /^[-+]?\d{1,3}(?:(?:,\d{3})+|(?: \d{3})+|(?:['’]\d{3})+)(?:\.(\d*))?$/;
const commaGrouped = /^[-+]?\d{1,3}(?:(?:\.\d{3})+|(?: \d{3})+|(?:['’]\d{3})+)(?:,(\d+))?$/;
const withUnit = /^([-+]?[\d.,]*\d(?:e[-+]?\d+)?) ?([^\d\s.,:;+-].{0,12})$/i;
const clock =
  /^(?:(\d{1,3})[. ](?=\d\d?:\d\d:))?(\d{1,5}):([0-5]?\d)(?::([0-5]?\d))?(?:[.,](\d+))?(?: ?([ap])\.?m\.?)?$/i;
const date =
  /^(?:(\d{4})[-/.](\d\d?)[-/.](\d\d?)|(\d\d?)[-/.](\d\d?)[-/.](\d{4}))(?:[T ]+(\S.*?))?(?:Z|[-+]\d\d:?\d\d)?$/;

/** Longest text that can be a number, a clock or a date. */
const longest = 64;

/**
 * Reads one cell of a table: a number in any written form, a clock, a date, a mark for a missing value, or text. A clock of
 * two parts counts as minutes and seconds.
 *
 * @example
 * ```ts
 * readCell("−1 234,5", ",").value; // -1234.5
 * ```
 */
export function readCell(written: string, decimalMark: "." | ","): Cell {
  if (written.length > longest) return other("text");
  const text = tidy(written);
  if (missingMarks.test(text)) return other("missing");
  const plain = (decimalMark === "." ? point : comma).exec(text);
  if (plain !== null) {
    const decimals = (plain[1] ?? plain[2] ?? "").length - Number(plain[3] ?? 0);
    return number(text.replace(",", ".").replace(/d/i, "e"), decimals, { scientific: plain[3] !== undefined });
  }
  // Words are the commonest rest.
  if (!/\d/.test(text)) return other("text");
  const grouped = (decimalMark === "." ? pointGrouped : commaGrouped).exec(text);
  if (grouped !== null) {
    const bare = decimalMark === "." ? text.replace(/[, '’]/g, "") : text.replace(/[. '’]/g, "").replace(",", ".");
    return number(bare, (grouped[1] ?? "").length, { grouped: true });
  }
  return readClock(text) ?? readDate(text) ?? readWithUnit(text, decimalMark) ?? other("text");
}

/** Minus signs, blanks and full-width digits of all kinds become plain ones; invisible characters go. */
function tidy(text: string): string {
  // Most cells are plain already.
  if (/^[\x21-\x7e]*$/.test(text)) return text;
  return text
    .normalize("NFKC")
    .replace(/[\u2212\u2010-\u2013\ufe63](?=[\d.,])/g, "-")
    .replace(/[\ufeff\u200b\u2060]|\0/g, "")
    .replace(/\s+/g, " ")
    .trim();
}

function number(text: string, decimals: number, how: Partial<Cell>): Cell {
  const value = Number(text);
  // 1e999 is no measured value.
  if (!Number.isFinite(value)) return other("missing");
  return { kind: "number", value, decimals, scientific: false, grouped: false, unit: "", ...how };
}

function other(kind: "missing" | "text"): Cell {
  return { kind, value: Number.NaN, decimals: 0, scientific: false, grouped: false, unit: "" };
}

function readWithUnit(text: string, decimalMark: "." | ","): Cell | null {
  const parts = withUnit.exec(text);
  if (parts === null || parseUnit(parts[2]!) === null) return null;
  const cell = readCell(parts[1]!, decimalMark);
  return cell.kind === "number" ? { ...cell, unit: parts[2]! } : null;
}

function readClock(text: string): Cell | null {
  const parts = clock.exec(text);
  if (parts === null) return null;
  const [, days, high, low, seconds, fraction, half] = parts;
  const short = seconds === undefined && half === undefined;
  let value = short ? 60 * Number(high) + Number(low) : 3600 * Number(high) + 60 * Number(low) + Number(seconds ?? 0);
  if (half !== undefined) value += (half.toLowerCase() === "p" ? 43200 : 0) - (Number(high) === 12 ? 43200 : 0);
  value = Number(`${value + 86400 * Number(days ?? 0)}.${fraction ?? ""}`);
  const kind = short ? "short-clock" : "clock";
  return { kind, value, decimals: fraction?.length ?? 0, scientific: false, grouped: false, unit: "" };
}

/** Seconds since 1970, of the clock that wrote it: only differences count. */
function readDate(text: string): Cell | null {
  const parts = date.exec(text);
  if (parts === null) return null;
  const ofDay = parts[7] === undefined ? null : readClock(/^\d+:\d+$/.test(parts[7]) ? `${parts[7]}:00` : parts[7]);
  if (parts[7] !== undefined && ofDay === null) return null;
  const year = Number(parts[1] ?? parts[6]);
  const first = Number(parts[2] ?? parts[5]);
  const second = Number(parts[3] ?? parts[4]);
  // Which of the two is the month matters only across midnight; the one that can't be a month is the day.
  const [month, day] = first <= 12 ? [first, second] : [second, first];
  if (month < 1 || month > 12 || day < 1 || day > 31) return null;
  const value = Date.UTC(year, month - 1, day) / 1000 + (ofDay?.value ?? 0);
  return { kind: "date", value, decimals: ofDay?.decimals ?? 0, scientific: false, grouped: false, unit: "" };
}
