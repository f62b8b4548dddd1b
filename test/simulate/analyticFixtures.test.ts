import { describe, expect, test } from "vitest";
import { parseMixes } from "../../src/campaign/parseMixes.ts";
import { theoreticalLosses } from "../../src/chemistry/theoreticalLosses.ts";
import { valueOrNull } from "../../src/measured.ts";
import type { Basis } from "../../src/phases/types.ts";
import { indexBytes } from "../../src/protocol/indexBytes.ts";
import { newJob } from "../../src/protocol/newJob.ts";
import { protocols } from "../../src/protocol/protocols.ts";
import { settle } from "../../src/protocol/settle.ts";
import type { RunDone } from "../../src/protocol/types.ts";
import { analyticFixture, analyticNames } from "../analyticFixtures.ts";

/** The file of a fixture through the pipeline, in the windows that it is made for. */
function indexed(name: string, options: { basis?: Basis } = {}): RunDone {
  const { file, bytes, mix, windows } = analyticFixture(name);
  const own = windows.map(({ name, from_C, to_C }) => ({ name, from_C, to_C, rule: "step" as const }));
  const protocol = settle({ ...protocols.csa, windows: own, basis: options.basis ?? "ignited" });
  const table = `${Object.keys(mix).join(",")}\n${Object.values(mix).join(",")}\n`;
  const { rows } = parseMixes(table, { name: "mixes.csv" });
  const result = indexBytes(bytes, newJob(file, { mix: name }), { protocol, mix: rows[0]! });
  if (result.status === "failed") throw new Error(result.error.message);
  return result;
}
const windowOf = (run: RunDone, name: string) => run.windows.find(({ window }) => window === name)!;
const within = (value: number | null, expected: number, tolerance: number) =>
  expect(Math.abs(value! - expected)).toBeLessThanOrEqual(tolerance);

test.for(analyticNames)("%s: every step and the residue as the composition gives them", (name) => {
  const { windows, residue_pct } = analyticFixture(name);
  const run = indexed(name);
  for (const { name: window, step_pct } of windows) {
    const found = windowOf(run, window);
    within(valueOrNull(found.loss_pct_initial), step_pct, 0.0005);
    within(valueOrNull(found.index_step), (100 * step_pct) / residue_pct, 0.001);
  }
  within(valueOrNull(run.residue_pct), residue_pct, 0.0005);
});

// The expected figures below are arithmetic from published atomic weights, worked out apart from this code.
describe("figures of the fixtures", () => {
  const ch = theoreticalLosses("portlandite").phasePerWater!;

  test("FX1: 6.07859 % and 4.39712 %, residue 44.76215 mg, 27.9254 g portlandite per 100 g ignited", () => {
    const run = indexed("FX1");
    within(valueOrNull(windowOf(run, "ch-range").loss_mg), 3.0393, 0.0002);
    within(valueOrNull(windowOf(run, "carbonate").loss_mg), 2.19856, 0.0002);
    within(valueOrNull(run.ignited_mass_mg), 44.76215, 0.0002);
    within(valueOrNull(windowOf(run, "ch-range").index_step)! * ch, 27.9254, 0.002);
    within(
      valueOrNull(windowOf(run, "carbonate").index_step)! * theoreticalLosses("calcite").phasePerCo2!,
      11.1702,
      0.002,
    );
  });

  test("FX1b: portlandite 25.8226 % by the step, 25.0000 % by the area", () => {
    const { initial_mass_mg, ignited_mass_mg, windows } = indexed("FX1b");
    const found = windows.find(({ window }) => window === "ch-range")!;
    const perInitial = valueOrNull(ignited_mass_mg)! / initial_mass_mg!;
    within(valueOrNull(found.index_step)! * perInitial * ch, 25.8226, 0.002);
    within(valueOrNull(found.index_area)! * perInitial * ch, 25, 0.005);
  });

  test("FX2: ettringite and monosulfate 18.3728 + 3.4727 %, AH3 21.199 and calcite 7.066 g per 100 g ignited", () => {
    const run = indexed("FX2");
    within(valueOrNull(windowOf(run, "aft-afm").loss_pct_initial), 18.3728 + 3.4727, 0.001);
    within(valueOrNull(windowOf(run, "ah3").index_step)! * theoreticalLosses("ah3").phasePerWater!, 21.199, 0.002);
    within(
      valueOrNull(windowOf(run, "carbonate").index_step)! * theoreticalLosses("calcite").phasePerCo2!,
      7.066,
      0.002,
    );
    within(valueOrNull(run.residue_pct), 70.7595, 0.001);
  });

  test("FX2b: read naively, AH3 would be 29.96 % instead of 15 %", () => {
    const loss = valueOrNull(windowOf(indexed("FX2b"), "ah3").loss_pct_initial)!;
    within(loss * theoreticalLosses("ah3").phasePerWater!, 29.96, 0.01);
  });

  test("FX3: AH3 29.883 g per 100 g ignited, 28.632 g per 100 g of binder", () => {
    const perWater = theoreticalLosses("ah3").phasePerWater!;
    within(valueOrNull(windowOf(indexed("FX3"), "ah3").index)! * perWater, 29.883, 0.003);
    within(valueOrNull(windowOf(indexed("FX3", { basis: "binder" }), "ah3").index)! * perWater, 28.632, 0.003);
  });

  test("FX4: portlandite 5.3763 g per 100 g ignited mortar, 21.5054 g per 100 g ignited binder", () => {
    within(valueOrNull(windowOf(indexed("FX4"), "ch-range").index)! * ch, 5.3763, 0.001);
    within(valueOrNull(windowOf(indexed("FX4", { basis: "binder" }), "ch-range").index)! * ch, 21.5054, 0.004);
  });
});
