import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { UnreadableError } from "../../src/errors.ts";
import { parseColumns } from "../../src/read/parseColumns.ts";
import { readRun } from "../../src/read/readRun.ts";
import type { ReadOptions, Run } from "../../src/read/types.ts";

const root = new URL("../../fixtures/read/", import.meta.url);

/** A pair: `name.txt` and `name.expected.json`. Adding one adds a case. */
function pairs(folder: string): { name: string; bytes: Uint8Array; expected: Expected }[] {
  const place = new URL(`${folder}/`, root);
  const names = readdirSync(place).filter((name) => name.endsWith(".txt"));
  return names.map((file) => {
    const name = file.slice(0, -".txt".length);
    const expected = JSON.parse(readFileSync(new URL(`${name}.expected.json`, place), "utf8")) as Expected;
    return { name, bytes: new Uint8Array(readFileSync(new URL(file, place))), expected };
  });
}

interface Expected {
  options?: { columns?: string; initialMass_mg?: number };
  /** Of a file that opens. */
  encoding: string;
  delimiter: string;
  decimal_mark: string;
  columns: { name: string; unit: string; quantity: string; by: string }[];
  rows_read: number;
  rows_dropped: { reason: string; count: number; lines: number[] }[];
  flags: string[];
  stated: Run["reading"]["stated"];
  metadata: Record<string, string>;
  mass_unit: string;
  initial_mass_mg: number | null;
  /** Lines of the first and the last reading. */
  lines?: [number, number];
  tolerance: { temperature_C: number; mass: number; time_s: number | null };
  temperature_C: number[];
  mass: number[];
  time_s: number[] | null;
  /** Of a file that must be refused. */
  code: string;
  message: string;
}

function optionsOf(name: string, { options = {} }: Expected): ReadOptions {
  const { columns, ...rest } = options;
  return { name: `${name}.txt`, ...rest, ...(columns !== undefined && { columns: parseColumns(columns) }) };
}

function expectClose(actual: Float64Array, expected: number[], tolerance: number): void {
  expect(actual.length).toBe(expected.length);
  const worst = expected.reduce((most, value, i) => Math.max(most, Math.abs(value - actual[i]!)), 0);
  expect(worst).toBeLessThanOrEqual(tolerance);
}

describe("files that must open", () => {
  test.for(pairs("accept"))("$name", ({ name, bytes, expected }) => {
    const before = bytes.slice();
    const run = readRun(bytes, optionsOf(name, expected));
    const { reading } = run;
    expect(reading.columns).toEqual(
      expected.columns.map((column, i) => expect.objectContaining({ number: i + 1, ...column })),
    );
    expect(reading).toMatchObject({
      encoding: expected.encoding,
      delimiter: expected.delimiter,
      decimal_mark: expected.decimal_mark,
      rows_read: expected.rows_read,
      stated: expected.stated,
    });
    expect(reading.rows_dropped).toEqual(expected.rows_dropped);
    expect(run.flags.map(({ code }) => code)).toEqual(expected.flags);
    expect(run.metadata).toMatchObject(expected.metadata);
    expect(run.massUnit).toBe(expected.mass_unit);
    const { tolerance } = expected;
    expectClose(run.temperature, expected.temperature_C, tolerance.temperature_C);
    expectClose(run.mass, expected.mass, tolerance.mass);
    if (expected.time_s === null) expect(run.time).toBeNull();
    else expectClose(run.time!, expected.time_s, tolerance.time_s!);
    if (expected.initial_mass_mg === null) expect(run.initialMass).toBeNull();
    else expect(Math.abs(run.initialMass! - expected.initial_mass_mg)).toBeLessThanOrEqual(tolerance.mass);
    if (expected.lines !== undefined) expect([run.lines[0], run.lines.at(-1)]).toEqual(expected.lines);
    expect(bytes).toEqual(before);
  });
});

describe("files that must be refused", () => {
  test.for(pairs("refuse"))("$name", ({ name, bytes, expected }) => {
    let error: unknown;
    try {
      readRun(bytes, optionsOf(name, expected));
    } catch (thrown) {
      error = thrown;
    }
    expect(error).toBeInstanceOf(UnreadableError);
    expect((error as UnreadableError).message).toBe(expected.message);
    expect((error as UnreadableError).code).toBe(expected.code);
  });
});
