import { join } from "node:path";
import { expect, test } from "vitest";
import { exportLayouts } from "../../src/simulate/exportLayouts.ts";
import { formatExport } from "../../src/simulate/formatExport.ts";
import { simulateRun } from "../../src/simulate/simulateRun.ts";
import { exportBytes } from "../files/exportBytes.ts";
import { tempFolder } from "../files/tempFolder.ts";
import { cli } from "./cli.ts";

const read = async (argv: string[], cwd: string) => {
  const { code, out, err } = await cli(["read", "--json", ...argv], { cwd });
  return { code, err, reports: JSON.parse(out) };
};

test("one object per file, with the agreed fields in their order", async () => {
  const cwd = tempFolder({ "a.csv": exportBytes({ layout: "semicolons" }) });
  const { code, err, reports } = await read(["a.csv"], cwd);
  expect([code, err, reports.length]).toEqual([0, "", 1]);
  const [report] = reports;
  expect(Object.keys(report)).toEqual([
    "file",
    "encoding",
    "delimiter",
    "decimal_mark",
    "columns",
    "rows_read",
    "rows_dropped",
    "dropped",
    "temperature_min_C",
    "temperature_max_C",
    "initial_mass_mg",
    "heating_rate_K_per_min",
    "noise_ug",
    "segments",
    "metadata",
    "flags",
    "error",
  ]);
  expect(report).toMatchObject({
    file: "a.csv",
    encoding: "windows-1252",
    delimiter: ";",
    decimal_mark: ",",
    rows_read: 1200,
    rows_dropped: 0,
    dropped: [],
    temperature_min_C: 25,
    temperature_max_C: 1000,
    error: null,
  });
  // 30 mg with 1 µg of noise at 10 K/min.
  expect(report.initial_mass_mg).toBeCloseTo(30, 1);
  expect(report.heating_rate_K_per_min).toBeCloseTo(10, 2);
  expect(report.noise_ug).toBeGreaterThan(0.8);
  expect(report.noise_ug).toBeLessThan(1.2);
  expect(report.columns.map(({ quantity, unit }: { quantity: string; unit: string }) => [quantity, unit])).toEqual([
    ["temperature", "°C"],
    ["time", "min"],
    ["mass", "mg"],
  ]);
});

test("segments: holds before, inside and after the heating, in the order of the run", async () => {
  const run = simulateRun(
    {
      sample_mg: 30,
      reactions: [],
      programme: {
        start_C: 30,
        segments: [
          { to_C: 105, rate_K_per_min: 10, hold_min: 30 },
          { to_C: 1000, rate_K_per_min: 20, hold_min: 10 },
        ],
      },
    },
    { rows: 3000 },
  );
  const cwd = tempFolder({ "a.txt": formatExport(run, exportLayouts.tabs) });
  const { reports } = await read(["a.txt"], cwd);
  const segments = reports[0].segments as { kind: string; to_C: number; duration_min: number }[];
  const programme: [string, number, number][] = [
    ["heating", 105, 7.5],
    ["isothermal", 105, 30],
    ["heating", 1000, 44.75],
    ["isothermal", 1000, 10],
  ];
  expect(segments.map(({ kind }) => kind)).toEqual(programme.map(([kind]) => kind));
  for (const [i, [, to_C, minutes]] of programme.entries()) {
    expect(segments[i]!.to_C).toBeCloseTo(to_C, 0);
    // An edge is known to a few readings, 1.8 s apart.
    expect(Math.abs(segments[i]!.duration_min - minutes)).toBeLessThan(0.2);
  }
});

test("a file that cannot be read does not stop the others: exit code 1", async () => {
  const cwd = tempFolder({
    "a.txt": exportBytes(),
    "b.txt": "no table\n",
    "c.txt": "1\t2\t3\n4\t1\t7\n5\t9\t2\n",
    "d/e.txt": "",
  });
  const { code, err, reports } = await read(["b.txt", "gone.txt", "d", "c.txt", "a.txt"], cwd);
  expect(code).toBe(1);
  expect(
    reports.map(({ file, error }: { file: string; error: { code: string } | null }) => [file, error?.code]),
  ).toEqual([
    ["b.txt", "no-table"],
    ["gone.txt", "not-found"],
    ["d", "is-a-folder"],
    ["c.txt", "no-temperature"],
    ["a.txt", undefined],
  ]);
  const lines = err.trimEnd().split("\n");
  expect(lines.length).toBe(4);
  expect(lines[1]).toBe("gone.txt: There is no such file or folder. Check the path.");
  // What is known of a table without a temperature is shown all the same.
  expect(reports[3]).toMatchObject({ encoding: "utf-8", delimiter: "\t", rows_read: null });
  expect(reports[3].columns).toHaveLength(3);
});

test("a run without heating opens and has a flag", async () => {
  const rows = Array.from({ length: 60 }, (_, i) => `${i};25.${i % 3};10.${i % 7}`);
  const cwd = tempFolder({ "a.txt": `t/s;T/°C;m/mg\n${rows.join("\n")}\n` });
  const { code, reports } = await read(["a.txt"], cwd);
  expect([code, reports[0].error, reports[0].segments]).toEqual([0, null, []]);
  expect(reports[0].flags).toContainEqual({
    code: "no-heating",
    severity: "serious",
    sentence: "The temperature never rises by more than 5 °C: this is not a heating run.",
    advice: "Nothing can be indexed: export the heating part of the run too.",
  });
});

test("as text: one block per file", async () => {
  const cwd = tempFolder({ "a.txt": exportBytes({ layout: "percent" }), "b.txt": "" });
  const { code, out, err } = await cli(["read", "a.txt", "b.txt"], { cwd });
  expect([code, err]).toEqual([1, "b.txt: The file is empty. Export the run again.\n"]);
  const [first, second] = out.split("\n\n");
  expect(first!.split("\n").slice(0, 8)).toEqual([
    "a.txt",
    "  encoding      utf-8",
    "  layout        comma, decimal point",
    '  column        1 "Temperature" [°C]: temperature (by name)',
    '  column        2 "Mass" [%]: mass percent (by name)',
    "  rows read     1200",
    "  temperature   25.0 to 1000.0 °C",
    "  initial mass  unknown",
  ]);
  expect(first).toMatch(/\n {2}segment {7}heating 25\.0 to 1000\.0 °C, 1200 rows\n/);
  expect(first).toMatch(/\n {2}flag {10}no-absolute-mass: /);
  expect(second).toBe("b.txt\n  error  empty-file");
});

test("columns by the user's word", async () => {
  const rows = Array.from({ length: 100 }, (_, i) => `${303 + i}\t${20 - i * 0.01}`);
  const cwd = tempFolder({ "a.txt": `${rows.join("\n")}\n` });
  const { reports } = await read(["--columns", "temperature=1:K,mass=2:mg", "a.txt"], cwd);
  expect(reports[0].temperature_min_C).toBeCloseTo(303 - 273.15, 9);
  expect(reports[0].columns.map(({ by }: { by: string }) => by)).toEqual(["override", "override"]);
});

test("paths are taken from where the command runs, and shown as they were written", async () => {
  const cwd = tempFolder({ "deep/a.txt": exportBytes() });
  const { reports } = await read([join("deep", "a.txt"), join(cwd, "deep/a.txt")], cwd);
  expect(reports.map(({ file }: { file: string }) => file)).toEqual([join("deep", "a.txt"), join(cwd, "deep/a.txt")]);
});
