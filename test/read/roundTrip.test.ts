import fc from "fast-check";
import { expect, test } from "vitest";
import { readRun } from "../../src/read/readRun.ts";

/** How a run is written; every combination must read back. */
interface Style {
  delimiter: "\t" | ";" | "," | "|" | " " | "fixed";
  comma: boolean;
  quoted: boolean;
  exponents: boolean;
  encoding: "utf-8" | "utf-8-bom" | "utf-16le" | "utf-16le-bom" | "utf-16be" | "utf-16be-bom" | "windows-1252";
  lineEnd: "\n" | "\r\n" | "\r";
  lastLineEnd: boolean;
  temperature: "°C" | "K" | "°F";
  mass: "mg" | "µg" | "g" | "%" | "g/g";
  time: "s" | "min" | "h" | "hh:mm:ss" | "none";
  decimals: number;
  heading: "brackets" | "round" | "slash" | "comma" | "unit row";
  order: number;
  extras: boolean;
  trailing: boolean;
  preamble: boolean;
}

const style: fc.Arbitrary<Style> = fc.record({
  delimiter: fc.constantFrom("\t", ";", ",", "|", " ", "fixed"),
  comma: fc.boolean(),
  quoted: fc.boolean(),
  exponents: fc.boolean(),
  encoding: fc.constantFrom(
    "utf-8",
    "utf-8-bom",
    "utf-16le",
    "utf-16le-bom",
    "utf-16be",
    "utf-16be-bom",
    "windows-1252",
  ),
  lineEnd: fc.constantFrom("\n", "\r\n", "\r"),
  lastLineEnd: fc.boolean(),
  temperature: fc.constantFrom("°C", "K", "°F"),
  mass: fc.constantFrom("mg", "µg", "g", "%", "g/g"),
  time: fc.constantFrom("s", "min", "h", "hh:mm:ss", "none"),
  decimals: fc.integer({ min: 3, max: 9 }),
  heading: fc.constantFrom("brackets", "round", "slash", "comma", "unit row"),
  order: fc.nat(5),
  extras: fc.boolean(),
  trailing: fc.boolean(),
  preamble: fc.boolean(),
});

const invented = fc.record({
  rows: fc.integer({ min: 9, max: 60 }),
  start: fc.integer({ min: 16, max: 45 }),
  end: fc.integer({ min: 400, max: 1200 }),
  initial: fc.integer({ min: 4000, max: 90_000 }),
  residue: fc.integer({ min: 40, max: 95 }),
  rate: fc.constantFrom(2, 5, 10, 20, 40),
});

interface Quantity {
  name: string;
  unit: string;
  /** Written numbers, and how far a reading may be off in the unit of the run. */
  values: number[];
  decimals: number;
  clock?: boolean;
}

test("any run written in any layout, encoding and unit reads back within the digits written", () => {
  fc.assert(
    fc.property(style, invented, (how, { rows, start, end, initial, residue, rate }) => {
      const T = Array.from({ length: rows }, (_, i) => start + ((end - start) * i) / (rows - 1));
      // Whole seconds, since clocks write no others.
      const t = T.map((value) => Math.round(((value - start) / rate) * 60));
      const m = T.map((value) => (initial / 1000) * (1 - (100 - residue) / 100 / (1 + Math.exp((300 - value) / 40))));
      const bytes = write(how, quantities(how, { T, t, m }));
      const run = readRun(bytes, { name: "round trip" });
      const relative = how.mass === "%" || how.mass === "g/g";
      expect(run.massUnit).toBe(relative ? "%" : "mg");
      expect(run.reading.rows_dropped).toEqual([]);
      expect(run.flags.map(({ code }) => code).filter((code) => code !== "no-absolute-mass")).toEqual([]);
      const digits = (value: number, factor: number): number =>
        0.51 *
        factor *
        (how.exponents ? 10 ** (Math.floor(Math.log10(value / factor)) - how.decimals) : 10 ** -how.decimals);
      const factorT = how.temperature === "°F" ? 5 / 9 : 1;
      const factorM = { mg: 1, µg: 1e-3, g: 1e3, "%": 1, "g/g": 100 }[how.mass];
      const wholeM = relative ? 100 / m[0]! : 1;
      const [ofT, ofM] = [T.map((v) => digits(2 * v + 600, factorT)), m.map((v) => digits(v * wholeM, factorM))];
      const whole = m.map((v) => v * wholeM);
      expect(worst(run.temperature, T, ofT)).toBeLessThanOrEqual(0);
      expect(worst(run.mass, whole, ofM)).toBeLessThanOrEqual(0);
      if (how.time === "none") expect(run.time).toBeNull();
      else {
        const factor = { s: 1, min: 60, h: 3600, "hh:mm:ss": 1 }[how.time];
        const least = 2 * digits(Math.max(1, t.at(-1)!), factor) + 1e-6;
        expect(
          worst(
            run.time!,
            t,
            t.map(() => least),
          ),
        ).toBeLessThanOrEqual(0);
      }
    }),
    { seed: 20_310, numRuns: 400 },
  );
}, 60_000);

/** By how much the worst number misses its tolerance; the number of numbers must be right too. */
function worst(actual: Float64Array, expected: number[], tolerance: number[]): number {
  if (actual.length !== expected.length) return Number.POSITIVE_INFINITY;
  return expected.reduce((most, value, i) => Math.max(most, Math.abs(actual[i]! - value) - tolerance[i]! - 1e-9), -1);
}

function quantities(how: Style, { T, t, m }: Record<"T" | "t" | "m", number[]>): Quantity[] {
  const { decimals } = how;
  const warmth = { "°C": (v: number) => v, K: (v: number) => v + 273.15, "°F": (v: number) => 1.8 * v + 32 }[
    how.temperature
  ];
  const weight = { mg: 1, µg: 1e3, g: 1e-3, "%": 100 / m[0]!, "g/g": 1 / m[0]! }[how.mass];
  const clock = { s: 1, min: 60, h: 3600, "hh:mm:ss": 1, none: 1 }[how.time];
  const all: Quantity[] = [
    { name: "Temperature", unit: how.temperature, values: T.map(warmth), decimals },
    { name: how.mass === "g/g" ? "Mass fraction" : "Mass", unit: how.mass, values: m.map((v) => v * weight), decimals },
  ];
  if (how.time !== "none") {
    all.push({
      name: "Time",
      unit: how.time,
      values: t.map((v) => v / clock),
      decimals,
      clock: how.time === "hh:mm:ss",
    });
  }
  if (how.extras) {
    all.unshift({ name: "Index", unit: "", values: T.map((_, i) => i + 1), decimals: 0 });
    all.push({ name: "Heat flow", unit: "mW", values: T.map((_, i) => Math.sin(i)), decimals });
  }
  // One of the orders that a number picks.
  return all
    .map((quantity, i) => ({ quantity, key: (i * (how.order + 1)) % 7 }))
    .sort((a, b) => a.key - b.key)
    .map(({ quantity }) => quantity);
}

function write(how: Style, columns: Quantity[]): Uint8Array {
  const blank = how.delimiter === " " || how.delimiter === "fixed";
  const delimiter = how.delimiter === "fixed" ? " " : how.delimiter;
  // A decimal comma between commas needs quotes.
  const comma = how.comma && (delimiter !== "," || how.quoted);
  const cell = ({ values, decimals, clock }: Quantity, i: number): string => {
    const value = values[i]!;
    if (clock)
      return [3600, 60, 1]
        .map((unit, k) => String(Math.floor(value / unit) % (k === 0 ? 1000 : 60)).padStart(2, "0"))
        .join(":");
    const text = how.exponents && decimals > 0 ? value.toExponential(decimals) : value.toFixed(decimals);
    return comma ? text.replace(".", ",") : text;
  };
  const quote = (text: string, needed: boolean): string => (needed ? `"${text}"` : text);
  const set = (cells: string[], quoted: boolean): string => {
    if (how.delimiter === "fixed") return cells.map((text) => text.padStart(24)).join("");
    const line = cells.map((text) => quote(text, quoted || text.includes(delimiter))).join(delimiter);
    return how.trailing && !blank ? line + delimiter : line;
  };
  const title = ({ name, unit }: Quantity): string => {
    const short = blank ? name.replace(" ", "-") : name;
    if (unit === "" || how.heading === "unit row") return short;
    if (how.heading === "slash") return `${short}/${unit}`;
    if (how.heading === "comma") return blank ? `${short}_${unit}` : `${short}, ${unit}`;
    return how.heading === "round" ? `${short}(${unit})` : `${short}[${unit}]`;
  };
  const lines = [set(columns.map(title), false)];
  if (how.heading === "unit row")
    lines.push(
      set(
        columns.map(({ unit }) => (blank && unit === "" ? "-" : unit)),
        false,
      ),
    );
  if (how.preamble) lines.unshift("Specimen: P12", "Cured: 7 d at 20 °C", "");
  for (let i = 0; i < columns[0]!.values.length; i++) {
    const cells = columns.map((column) => cell(column, i));
    lines.push(set(cells, how.quoted && !blank));
  }
  const text = lines.join(how.lineEnd) + (how.lastLineEnd ? how.lineEnd : "");
  return encode(text, how.encoding);
}

function encode(text: string, encoding: Style["encoding"]): Uint8Array {
  // The characters used here are the same in Latin-1 and windows-1252.
  if (encoding === "windows-1252") return Uint8Array.from(text, (character) => character.charCodeAt(0));
  if (encoding.startsWith("utf-8")) return new TextEncoder().encode(encoding.endsWith("bom") ? `\ufeff${text}` : text);
  const marked = encoding.endsWith("bom") ? `\ufeff${text}` : text;
  const bytes = new Uint8Array(Buffer.from(marked, "utf16le"));
  return encoding.startsWith("utf-16be") ? new Uint8Array(Buffer.from(bytes).swap16()) : bytes;
}
