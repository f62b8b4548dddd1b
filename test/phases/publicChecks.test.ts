import { describe, expect, test } from "vitest";
import {
  binderMaxima,
  checkSubstance,
  conversionDegree,
  hydrationDegree,
  indexBytes,
  indexRun,
  losses,
  type Measured,
  type Mix,
  molarMass,
  newJob,
  type Protocol,
  parseMixes,
  plausibility,
  protocols,
  type RunDone,
  reactionMasses,
  readRun,
  settle,
  simulateRun,
  theoreticalLosses,
  theoreticalSteps,
  toCurve,
  waterStep,
} from "../../src/index.ts";
import { analyticFixture } from "../analyticFixtures.ts";
import { makeRun } from "../makeRun.ts";

// Everything here goes through the public face. Expected figures: arithmetic from the abridged standard atomic weights (Prohaska
// et al., Pure Appl Chem 94:573, 2022), worked out apart from this code; where a count or a value is published, its source stands beside it.
const within = (value: number | null | undefined, expected: number, tolerance: number) =>
  expect(Math.abs(value! - expected)).toBeLessThanOrEqual(tolerance);
const numberOf = (measured: Measured): number => {
  if ("missing" in measured) throw new Error(measured.missing);
  return measured.value;
};
const mixOf = (columns: string, cells: string): Mix =>
  parseMixes(`mix,${columns}\nM,${cells}\n`, { name: "mixes.csv" }).rows[0]!;

describe("theory", () => {
  test("calcium oxalate monohydrate loses 12.330, 19.170 and 30.120 %, and 38.380 % stay", () => {
    const steps = theoreticalSteps("calcium-oxalate-monohydrate");
    for (const [i, loss] of [12.33, 19.17, 30.12].entries()) within(steps[i]!.lossPct, loss, 0.005);
    within(steps[2]!.residuePct, 38.38, 0.005);
  });

  test("gypsum loses 15.696 and 5.232 % (5.2 printed: Ramachandran et al., Handbook, 2002, p. 461), ratio 3", () => {
    const [first, second] = theoreticalSteps("gypsum");
    within(first!.lossPct, 15.696, 0.005);
    within(second!.lossPct, 5.232, 0.005);
    within(first!.lossPct / second!.lossPct, 3, 0.01);
  });

  test("sodium bicarbonate loses 36.916 %; published kinetics (Wu and Shih, Thermochim Acta 223:177, 1993) peak at 126.5, 134.9, 143.6 °C", () => {
    within(theoreticalSteps("sodium-bicarbonate")[0]!.lossPct, 36.916, 0.005);
    const window = { name: "all", from_C: 60, to_C: 250, rule: "step" as const };
    for (const [rate, peak] of [
      [1.25, 126.5],
      [2.5, 134.9],
      [5, 143.6],
    ] as const) {
      const { temperature_C, mass_mg, time_s } = simulateRun(
        {
          sample_mg: 10,
          // First order, 105.8 kJ/mol, 6.7e12 per minute.
          reactions: [{ loss_pct: 36.916, ln_A_per_min: Math.log(6.7e12), E_kJ_mol: 105.8 }],
          programme: { start_C: 25, segments: [{ to_C: 300, rate_K_per_min: rate }] },
        },
        { rows: 3000 },
      );
      const curve = toCurve(makeRun(temperature_C, mass_mg, { time: time_s }), protocols.csa);
      const [loss] = losses(curve, settle({ ...protocols.csa, windows: [window] })).losses;
      within(loss!.peak!.temperature, peak, 0.3);
    }
  });

  test("ettringite: 45.932 % in all; 24 and 6 mol (Ramachandran et al., Handbook, 2002, p. 107) are 34.449 and 8.612 %", () => {
    within(theoreticalLosses("ettringite").totalPct, 45.932, 0.005);
    within(waterStep("ettringite", 24).lossPct, 34.449, 0.005);
    within(waterStep("ettringite", 6).lossPct, 8.612, 0.005);
  });

  test("D-drying: ettringite 32 to 30, monosulfate 12 to 10 mol (Zhang and Glasser, Adv Cem Res 12:79, 2000): 2.871 and 5.788 %", () => {
    within(waterStep("ettringite", 2).lossPct, 2.871, 0.005);
    within(waterStep("monosulfate", 2).lossPct, 5.788, 0.005);
  });

  test("metaettringite keeps 10 to 13 mol (Zhou and Glasser, Cem Concr Res 31:1333, 2001): 31.58 to 27.27 % leave", () => {
    within(waterStep("ettringite", 32 - 10).lossPct, 31.58, 0.01);
    within(waterStep("ettringite", 32 - 13).lossPct, 27.27, 0.01);
  });

  test("ye'elimite with two gypsum: 2.0567 g of ettringite and 0.5113 g of AH3 per g, ratio 4.0225", () => {
    const { right } = reactionMasses("R2", "C4A3$");
    within(right.C6A$3H32, 2.0567, 0.0005);
    within(right.AH3, 0.5113, 0.0005);
    within(right.C6A$3H32! / right.AH3!, 4.0225, 0.0005);
  });

  test("stoichiometric water per binder: 0.531 without sulfate, gypsum 0.642, anhydrite 0.776, bassanite 0.740", () => {
    for (const [name, source, expected] of [
      ["R1", null, 0.531],
      ["R2", "C$H2", 0.642],
      ["R3", "C$", 0.776],
      ["R4", "C$H0.5", 0.74],
    ] as const) {
      const { left } = reactionMasses(name, "C4A3$");
      within(left.H! / (1 + (source === null ? 0 : left[source]!)), expected, 0.001);
    }
  });

  test("conversion of CAH10 gives 37.285 % C3AH6, 30.753 % AH3, 31.962 % water; equal peaks are half converted", () => {
    const { right } = reactionMasses("R11", "CAH10");
    within(100 * right.C3AH6!, 37.285, 0.005);
    within(100 * right.AH3!, 30.753, 0.005);
    within(100 * right.H!, 31.962, 0.005);
    // 100/(1 + (1/K)·CAH10/AH3): Ramachandran et al., Handbook, 2002, p. 411.
    expect(conversionDegree(2, 2)).toBe(50);
    within(conversionDegree(1, 3, { K: 2 }), 100 / (1 + 1 / 6), 1e-9);
    expect([conversionDegree(1, 0), conversionDegree(0, 1)]).toEqual([0, 100]);
    expect(() => conversionDegree(0, 0)).toThrow("Give peak sizes of zero or more, not both zero, not 0 and 0");
    expect(() => conversionDegree(1, 1, { K: 0 })).toThrow("Give a constant above 0 at K, not 0");
  });
});

describe("fixtures", () => {
  const step = (
    name: string,
    from_C: number,
    to_C: number,
    phase?: string,
    mol_lost = 1,
  ): Protocol["windows"][number] => ({
    ...{ name, from_C, to_C, rule: "step" },
    ...(phase ? { amount: { phase, mol_lost } } : {}),
  });
  const indexed = (
    name: string,
    windows: Protocol["windows"],
    options: { mix?: Mix; corrections?: NonNullable<Protocol["corrections"]> } = {},
  ): RunDone => {
    const { bytes, file } = analyticFixture(name);
    const { mix = null, corrections = {} } = options;
    const protocol = settle({ ...protocols.csa, windows, corrections });
    const result = indexBytes(bytes, newJob(file, { mix: "M" }), { protocol, mix });
    if (result.status === "failed") throw new Error(result.error.message);
    return result;
  };
  const amountOf = ({ phases }: RunDone, phase: string, basis = "ignited") =>
    numberOf(phases.find((row) => row.phase === phase && row.basis === basis)!.amount);

  test("FX1: 27.9254 g of portlandite and 11.1702 g of calcite per 100 g ignited; with its carbonate 36.1945 g", () => {
    const windows = [step("ch", 400, 500, "portlandite"), step("carbonate", 600, 850, "calcite")];
    const mix = mixOf("lime_source", "hydrated lime");
    const plain = indexed("FX1", windows, { mix });
    within(amountOf(plain, "portlandite"), 27.9254, 0.002);
    within(amountOf(plain, "calcite"), 11.1702, 0.002);
    const corrections = { carbonation: { window: "ch", carbonate: "carbonate" } };
    within(amountOf(indexed("FX1", windows, { mix, corrections }), "portlandite"), 36.1945, 0.003);
  });

  test("FX1b: on a slope the step of portlandite is 25.8226 % of the specimen, the area 25.0000 %", () => {
    const { windows, ignited_mass_mg, initial_mass_mg } = indexed("FX1b", [step("ch", 400, 500)]);
    const perInitial = (numberOf(ignited_mass_mg) / initial_mass_mg!) * waterStep("portlandite", 1).phasePerWater;
    within(numberOf(windows[0]!.index_step) * perInitial, 25.8226, 0.002);
    within(numberOf(windows[0]!.index_area) * perInitial, 25, 0.002);
  });

  test("FX2: ettringite and monosulfate cannot be told in one window; AH3 21.199, calcite 7.066, water 38.217 g per 100 g ignited", () => {
    const windows = [
      step("aft-afm", 50, 220),
      step("ah3", 220, 350, "ah3", 3),
      step("carbonate", 600, 850, "calcite"),
      step("bound-water", 50, 550),
    ];
    const run = indexed("FX2", windows);
    within(amountOf(run, "ah3"), 21.199, 0.002);
    within(amountOf(run, "calcite"), 7.066, 0.002);
    within(numberOf(run.windows[3]!.index), 38.217, 0.002);
  });

  test("FX2b: with all hydroxyl water under AH3 (k = 1) 29.96 % would be read for 15 %; corrected 21.199 g per 100 g ignited", () => {
    const windows = [
      step("aft", 50, 150, "ettringite", 26),
      step("afm", 150, 230, "monosulfate", 6),
      step("ah3", 230, 350, "ah3", 3),
    ];
    const naive = indexed("FX2b", windows);
    within((amountOf(naive, "ah3") * numberOf(naive.residue_pct)) / 100, 29.96, 0.01);
    const hydroxyl = { window: "ah3", aft: "aft", afm: "afm", k: 1, u_k: 0 };
    const corrected = indexed("FX2b", windows, { corrections: { hydroxyl } });
    within(amountOf(corrected, "ah3"), 21.199, 0.003);
    within(amountOf(corrected, "ettringite"), 56.53, 0.003);
    within(amountOf(corrected, "monosulfate"), 14.132, 0.003);
  });

  test("FX3 and FX3b: 76.084, 21.883 and 29.883 g per 100 g ignited; 29.145 g of strätlingite leave 17.763 g of AH3", () => {
    const mix = mixOf("w_b,yeelimite_pct,belite_pct,gypsum_pct", "0.5,56,12,20");
    const { complete } = plausibility(mix, {})!;
    within(complete.ettringite, 76.084, 0.001);
    within(complete.monosulfate, 21.883, 0.001);
    within(complete.ah3, 29.883, 0.001);
    within(complete.bound_water, 52.899, 0.001);
    const { complete: binder, with_belite } = binderMaxima(mix)!;
    within(binder.ettringite, 72.9, 0.001);
    within(binder.monosulfate, 20.967, 0.001);
    within(binder.ah3, 28.632, 0.001);
    within(binder.added_water, 46.499, 0.001);
    within(with_belite.straetlingite, 29.145, 0.001);
    within(with_belite.ah3, 17.763, 0.001);
    within(with_belite.added_water - binder.added_water, 6.276, 0.001);
    const run = indexed("FX3", [step("ah3", 220, 350, "ah3", 3)], { mix: { ...mix, loi_binder_pct: 4.18559 } });
    within(amountOf(run, "ah3"), 29.883, 0.003);
    within(amountOf(run, "ah3", "binder"), 28.632, 0.003);
    within(amountOf(run, "ah3", "paste"), 28.632 / 1.5, 0.003);
  });

  test("FX4: 5.3763 g of portlandite per 100 g of ignited mortar are 21.5054 g per 100 g of ignited binder", () => {
    const mix = mixOf("sand_binder_ignited,loi_binder_pct,lime_source", "3,0,lime");
    const run = indexed("FX4", [step("ch", 400, 500, "portlandite")], { mix });
    within(amountOf(run, "portlandite"), 5.3763, 0.001);
    within(amountOf(run, "portlandite", "ignited-binder"), 21.5054, 0.004);
    within(amountOf(run, "portlandite", "binder"), 21.5054, 0.004);
  });

  test("FX5: losses 8.0, 3.5 and 2.0 g give 12.3187 g of bound water (12.320 by 0.41) and a degree of 0.5133", () => {
    const found = { dehydration: 8, dehydroxylation: 3.5, decarbonation: 2 };
    within(hydrationDegree(found).boundWater, 12.3187, 0.0001);
    within(hydrationDegree(found, { waterPerCo2: 0.41 }).boundWater, 12.32, 1e-9);
    within(hydrationDegree(found).degree, 0.5133, 0.00005);
    within(hydrationDegree(found, { binderDecarbonation: 0.5 }).boundWater, 11.5 + 1.5 * 0.40935, 0.0001);
    expect(() => hydrationDegree(found, { ultimate: 0 })).toThrow(
      "Give an ultimate bound water above 0 g per g, not 0",
    );
  });
});

test("a run of calcium carbonate of 94.83 % purity fails the check at 41.7 % (M from the atomic weights)", () => {
  within((100 * molarMass("CO2")) / molarMass("CaCO3"), 43.971, 0.005);
  const rows = ["T/°C\tm/mg"];
  for (let T = 30; T <= 960; T += 0.5) {
    rows.push(`${T}\t${(20 * (1 - 0.417 / (1 + Math.exp((720 - T) / 8)))).toFixed(5)}`);
  }
  const run = readRun(new TextEncoder().encode(rows.join("\n")), { name: "calcite.txt" });
  const check = checkSubstance(toCurve(run, protocols.csa), "calcium-carbonate");
  expect(check.holds).toBe(false);
  within(check.steps[0]!.deviation_pct, 41.7 - 43.971, 0.005);
  const result = indexRun(run, settle(protocols.csa));
  within(numberOf(result.residue_pct), 58.3, 0.005);
});
