import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { theoreticalLosses } from "../../src/chemistry/theoreticalLosses.ts";
import { runCli } from "../../src/cli/run.ts";
import { protocols } from "../../src/protocol/protocols.ts";
import { analyticFixture } from "../analyticFixtures.ts";

/** Rows by column name of a CSV in which no cell is quoted. */
function readTable(text: string): Record<string, string>[] {
  expect(text).not.toContain('"');
  const [columns, ...rows] = text
    .trimEnd()
    .split("\n")
    .map((line) => line.split(","));
  return rows.map((cells) => Object.fromEntries(columns!.map((column, i) => [column, cells[i]!])));
}

const done = new Map<string, ReturnType<typeof run>>();

/** What the command wrote for a fixture; one run of the command serves all its figures. */
function indexByCommand(name: string, basis: "ignited" | "binder" = "ignited") {
  const known = done.get(name + basis) ?? run(name, basis);
  done.set(name + basis, known);
  return known;
}

/** Runs the command `index` on one fixture in a folder of its own and reads the CSVs that it writes. */
async function run(name: string, basis: "ignited" | "binder") {
  const { file, bytes, mix, windows } = analyticFixture(name);
  const folder = mkdtempSync(join(tmpdir(), "tg-hydrates-"));
  try {
    const area = { FX1b: "ch-range" } as Record<string, string>;
    const own = windows.map(({ name: window, from_C, to_C }) => ({
      name: window,
      from_C,
      to_C,
      rule: area[name] === window ? "area" : "step",
    }));
    writeFileSync(join(folder, file), bytes);
    writeFileSync(join(folder, "sheet.csv"), `file,mix,curing,age_d\n${file},${name},sealed,28\n`);
    writeFileSync(join(folder, "mixes.csv"), `${Object.keys(mix).join(",")}\n${Object.values(mix).join(",")}\n`);
    writeFileSync(join(folder, "protocol.json"), JSON.stringify({ ...protocols.csa, windows: own, basis }));
    let messages = "";
    const code = await runCli(["index", folder, "--protocol", "protocol.json", "--out", "out", "--no-figures"], {
      stdout: { write: () => true },
      stderr: { write: (text: string) => (messages += text) },
      cwd: folder,
      env: {},
      isTTY: false,
    });
    const table = (csv: string) => readTable(readFileSync(join(folder, "out", csv), "utf8"));
    return { code, messages, losses: code === 2 ? [] : table("losses.csv"), runs: code === 2 ? [] : table("runs.csv") };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

const perWater = (phase: string) => theoreticalLosses(phase).phasePerWater!;
const perCo2 = theoreticalLosses("calcite").phasePerCo2!;

// Expected figures are arithmetic from published atomic weights (Prohaska et al., Pure Appl Chem 94:573, 2022), worked out apart
// from this code: fixture, window, column of losses.csv, factor, value, tolerance.
const figures: [string, string, string, number, number, number][] = [
  ["FX1", "ch-range", "loss_pct_initial", 1, 6.07859, 0.0005],
  ["FX1", "ch-range", "loss_mg", 1, 3.0393, 0.0002],
  ["FX1", "ch-range", "index", perWater("portlandite"), 27.9254, 0.002],
  ["FX1", "carbonate", "loss_pct_initial", 1, 4.39712, 0.0005],
  ["FX1", "carbonate", "index", perCo2, 11.1702, 0.002],
  ["FX2", "aft-afm", "loss_pct_initial", 1, 21.8455, 0.0005],
  ["FX2", "ah3", "index", perWater("ah3"), 21.199, 0.002],
  ["FX2", "carbonate", "index", perCo2, 7.066, 0.002],
  ["FX2b", "aft", "loss_pct_initial", 1, 14.928, 0.0005],
  ["FX2b", "ah3", "loss_pct_initial", perWater("ah3"), 29.96, 0.01],
  ["FX3", "ah3", "index", perWater("ah3"), 29.883, 0.003],
  ["FX4", "ch-range", "index", perWater("portlandite"), 5.3763, 0.001],
];

test.for(figures)("%s, window %s: %s of losses.csv", async ([name, window, column, factor, value, tolerance]) => {
  const { code, messages, losses } = await indexByCommand(name);
  expect(code, messages).toBe(0);
  const row = losses.find((one) => one.window === window)!;
  expect(Math.abs(Number(row[column]) * factor - value)).toBeLessThanOrEqual(tolerance);
});

test.for([
  ["FX1", 89.52429],
  ["FX2", 70.7595],
  ["FX3", 100 - 34.597],
  ["FX4", 93],
] as const)("%s: residue %d % in runs.csv", async ([name, residue]) => {
  const { runs } = await indexByCommand(name);
  expect(Math.abs(Number(runs[0]!.residue_pct) - residue)).toBeLessThanOrEqual(0.001);
});

test("FX1b: the step reads 25.8226 % portlandite, the area 25.0000 %", async () => {
  const { losses, runs } = await indexByCommand("FX1b");
  const row = losses.find(({ window }) => window === "ch-range")!;
  const perInitial = (Number(runs[0]!.residue_pct) / 100) * perWater("portlandite");
  expect(Math.abs(Number(row.index_step) * perInitial - 25.8226)).toBeLessThanOrEqual(0.002);
  expect(Math.abs(Number(row.index) * perInitial - 25)).toBeLessThanOrEqual(0.005);
});

test.for([
  ["FX3", "ah3", perWater("ah3"), 28.632, 0.003],
  ["FX4", "ch-range", perWater("portlandite"), 21.5054, 0.004],
] as const)("%s: per 100 g of binder, window %s", async ([name, window, factor, value, tolerance]) => {
  const { losses } = await indexByCommand(name, "binder");
  const row = losses.find((one) => one.window === window)!;
  expect(row.basis).toBe("binder");
  expect(Math.abs(Number(row.index) * factor - value)).toBeLessThanOrEqual(tolerance);
});
