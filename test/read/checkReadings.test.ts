import { expect, test } from "vitest";
import { seededRandom } from "../../src/numerics/seededRandom.ts";
import { checkReadings } from "../../src/read/checkReadings.ts";
import { makeRun, ramp } from "../makeRun.ts";

function deviates(seed: number, count: number): number[] {
  const random = seededRandom(seed);
  return Array.from({ length: count }, () => random.normal());
}

const curve = (T: number): number => 20 - 2 / (1 + Math.exp((110 - T) / 8)) - 1.5 / (1 + Math.exp((700 - T) / 15));

test("normal noise of any size and any print resolution flags nothing", () => {
  const found: unknown[] = [];
  for (let seed = 1; seed <= 60; seed++) {
    const { temperature, time } = ramp(25, 1000, { rows: 2000, rate: 10 });
    const noise = deviates(seed, 4000);
    const sigma = [0, 1e-4, 1e-3, 0.01][seed % 4]!;
    const digits = 2 + (seed % 5);
    const mass = temperature.map((T, i) => Number((curve(T) + sigma * noise[i]!).toFixed(digits)));
    const warm = temperature.map((T, i) => Number((T + 0.02 * noise[2000 + i]!).toFixed(2)));
    const run = { ...makeRun(warm, mass, { time, resolution: 10 ** -digits }), temperatureResolution: 0.01 };
    found.push(...checkReadings(run).map(({ code }) => `${seed}: ${code}`));
  }
  expect(found).toEqual([]);
});

test.for([
  [[900], 0.5],
  [[900, 901], -0.4],
  [[300, 1500], 0.3],
] as const)("spikes at readings %s of %d mg are found and told, not removed", ([rows, size]) => {
  const { temperature, time } = ramp(25, 1000, { rows: 2000, rate: 10 });
  const noise = deviates(7, 2000);
  const at = new Set<number>(rows);
  const mass = temperature.map((T, i) => curve(T) + 0.002 * noise[i]! + (at.has(i) ? size : 0));
  const run = makeRun(temperature, mass, { time, resolution: 1e-4 });
  const flags = checkReadings(run);
  expect(flags.map(({ code }) => code)).toEqual(["spikes"]);
  const lines = rows.map((row) => run.lines[row]).join(", ");
  const few = rows.length === 1 ? "1 reading stands" : `${rows.length} readings stand`;
  expect(flags[0]!.sentence).toBe(
    `${few} far off the neighbours in mass: line${rows.length === 1 ? "" : "s"} ${lines}.`,
  );
  expect([...run.mass]).toEqual(mass);
});

test("a balance at its upper limit is told with the lines and the value", () => {
  const { temperature, time } = ramp(25, 1000, { rows: 2000, rate: 10 });
  const noise = deviates(3, 2000);
  const mass = temperature.map((T, i) => Math.min(19.95, curve(T) + 0.002 * noise[i]!));
  const flags = checkReadings(makeRun(temperature, mass, { time, resolution: 1e-4 }));
  expect(flags.map(({ code }) => code)).toEqual(["balance-stuck"]);
  expect(flags[0]!.sentence).toMatch(
    /^\d+ readings in a row are 19\.95 mg \(lines 2 to \d+\), the highest mass of the run/,
  );
});

test("a temperature that falls back while heating is told; cooling is not", () => {
  const up = ramp(25, 500, { rows: 500, rate: 10 }).temperature;
  const dipped = up.map((T, i) => (i >= 200 && i < 204 ? T - 5 : T));
  const cooled = [...up, ...up.toReversed()];
  const codes = (T: number[]): string[] => checkReadings(makeRun(T, T.map(curve))).map(({ code }) => code);
  expect(codes(dipped)).toContain("temperature-wobbles");
  expect(codes(cooled)).toEqual([]);
});
