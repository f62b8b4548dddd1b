import { describe, expect, test } from "vitest";
import { mean } from "../../src/numerics/mean.ts";
import { standardDeviation } from "../../src/numerics/standardDeviation.ts";
import { simulateRun } from "../../src/simulate/simulateRun.ts";
import type { Model } from "../../src/simulate/types.ts";

const model: Model = {
  sample_mg: 30,
  reactions: [{ loss_pct: 12, ln_A_per_min: 25, E_kJ_mol: 81 }],
  programme: { start_C: 25, segments: [{ to_C: 1000, rate_K_per_min: 10 }] },
};
const empty: Model = { sample_mg: 0, reactions: [], programme: model.programme };

/** What the balance adds, µg. */
const added = (run: ReturnType<typeof simulateRun>) =>
  Array.from(run.mass_mg, (mass, i) => (mass - run.true_mass_mg[i]!) * 1000);

test("without options the readings are the truth, evenly spread from start to end", () => {
  const run = simulateRun(model);
  expect(run.mass_mg).toHaveLength(5000);
  expect(run.mass_mg).toEqual(run.true_mass_mg);
  expect(run.temperature_C).toEqual(run.true_temperature_C);
  expect(run.temperature_C[0]).toBeCloseTo(25, 10);
  expect(run.temperature_C.at(-1)).toBeCloseTo(1000, 10);
  expect(run.time_s.at(-1)).toBeCloseTo(97.5 * 60, 9);
  expect(run.mass_mg[0]).toBeCloseTo(30, 4);
  expect(run.mass_mg.at(-1)).toBeCloseTo(30 * 0.88, 10);
});

test("the same seed gives the same run, another seed another one, and the model stays as it was", () => {
  const before = structuredClone(model);
  const options = { rows: 200, noise_ug: 1, temperature_noise_C: 0.05 };
  expect(simulateRun(model, { ...options, seed: 3 })).toEqual(simulateRun(model, { ...options, seed: 3 }));
  expect(simulateRun(model, { ...options, seed: 3 }).mass_mg).not.toEqual(
    simulateRun(model, { ...options, seed: 4 }).mass_mg,
  );
  expect(model).toEqual(before);
});

test("switching the thermometer's noise on leaves the balance's noise as it was", () => {
  const options = { rows: 100, noise_ug: 1, seed: 5 };
  expect(simulateRun(model, { ...options, temperature_noise_C: 1 }).mass_mg).toEqual(
    simulateRun(model, options).mass_mg,
  );
});

describe("noise", () => {
  test.for([0, 0.6, -0.4])("with correlation %d has the stated deviation and correlation", (noise_correlation) => {
    const rows = 40_000;
    const noise = added(simulateRun(empty, { rows, noise_ug: 2, noise_correlation, seed: 11 }));
    const deviation = standardDeviation(noise);
    const lagOne = mean(noise.slice(1).map((value, i) => value * noise[i]!)) / deviation ** 2;
    // Effective number of readings of an autoregression: n(1 − ρ²)/(1 + ρ²) for the variance.
    const effective = (rows * (1 - noise_correlation ** 2)) / (1 + noise_correlation ** 2);
    expect(Math.abs(deviation / 2 - 1)).toBeLessThan(4 / Math.sqrt(2 * effective));
    expect(Math.abs(lagOne - noise_correlation)).toBeLessThan(4 / Math.sqrt(rows));
  });
});

test("drift grows with time, buoyancy with 1 − T₀/T", () => {
  const drifting = simulateRun(empty, { rows: 3, drift_ug_per_h: 10 });
  expect(added(drifting)[2]).toBeCloseTo((10 * 97.5) / 60, 9);
  const floating = simulateRun(empty, { rows: 3, buoyancy_ug: 80 });
  const middle_K = 0.5 * (298.15 + 1273.15);
  expect(added(floating)[0]).toBeCloseTo(0, 9);
  expect(added(floating)[1]).toBeCloseTo(80 * (1 - 298.15 / middle_K), 9);
  expect(added(floating)[2]).toBeCloseTo(80 * (1 - 298.15 / 1273.15), 9);
});

test("buoyancy of a crucible of 0.068 mL in nitrogen is 0.060 mg from 25 to 1000 °C (ideal-gas arithmetic)", () => {
  // Density of nitrogen at 25 °C and 1 atm: 28.014 g/mol over 24.465 L/mol, all of it lost but T₀/T.
  const density_ug_per_mL = (28.014 / 24.465) * 1000;
  const run = simulateRun(empty, { rows: 2, buoyancy_ug: 0.068 * density_ug_per_mL });
  expect(Math.abs(run.mass_mg[1]! - 0.06)).toBeLessThan(0.0005);
});

test("masses are rounded to the print resolution, temperatures are shifted by the thermometer's error", () => {
  const run = simulateRun(model, { rows: 500, resolution_ug: 5, temperature_offset_C: -2 });
  for (const [i, mass] of run.mass_mg.entries()) {
    expect(Math.abs(mass * 200 - Math.round(mass * 200))).toBeLessThan(1e-9);
    expect(Math.abs(mass - run.true_mass_mg[i]!)).toBeLessThanOrEqual(0.0025 + 1e-12);
    expect(run.temperature_C[i]! - run.true_temperature_C[i]!).toBeCloseTo(-2, 9);
  }
});

test("a hold holds the temperature while mass goes on leaving", () => {
  const held: Model = {
    ...model,
    programme: {
      start_C: 25,
      segments: [
        { to_C: 105, rate_K_per_min: 10, hold_min: 30 },
        { to_C: 1000, rate_K_per_min: 10 },
      ],
    },
  };
  const run = simulateRun(held, { rows: 2001 });
  const during = [...run.time_s.keys()].filter((i) => run.time_s[i]! > 8 * 60 && run.time_s[i]! < 38 * 60);
  expect(during.length).toBeGreaterThan(300);
  for (const i of during) expect(run.temperature_C[i]).toBeCloseTo(105, 9);
  expect(run.mass_mg[during[0]!]! - run.mass_mg[during.at(-1)!]!).toBeGreaterThan(1);
  for (let i = 1; i < 2001; i++) expect(run.mass_mg[i]!).toBeLessThanOrEqual(run.mass_mg[i - 1]! + 1e-12);
});

test.for([
  [{ rows: 1 }, "Give two or more whole rows, not 1"],
  [{ rows: 2.5 }, "Give two or more whole rows, not 2.5"],
  [{ noise_correlation: 1 }, "Give a correlation between -1 and 1 at noise_correlation, not 1"],
  [{ noise_ug: -1 }, "Give zero or more at noise_ug, not -1"],
  [{ resolution_ug: Number.NaN }, "Give zero or more at resolution_ug, not NaN"],
] as const)("%j is refused", ([options, message]) => {
  expect(() => simulateRun(model, options)).toThrow(new RangeError(message));
});
