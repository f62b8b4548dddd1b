import { describe, expect, test } from "vitest";
import { toCurve } from "../../src/curve/toCurve.ts";
import { seededRandom } from "../../src/numerics/seededRandom.ts";
import { makeRun, ramp } from "../makeRun.ts";

const options = { grid: { step_C: 0.5 }, smoothing: { width_C: 10, degree: 3 } };
const tg = (T: number) => 30 - 4 / (1 + Math.exp((120 - T) / 5)) - 1.5 / (1 + Math.exp((280 - T) / 7));

/** A run with noise of standard deviation `sd` and lag-one correlation `rho`. */
function noisy(rows: number, { sd, rho, seed }: { sd: number; rho: number; seed: number }) {
  const random = seededRandom(seed);
  const { temperature, time } = ramp(25, 1000, { rows, rate: 10 });
  let e = sd * random.normal();
  const mass = temperature.map((T) => {
    e = rho * e + sd * Math.sqrt(1 - rho * rho) * random.normal();
    return tg(T) + e;
  });
  return makeRun(temperature, mass, { time });
}

describe("noise found from the run", () => {
  test.for([
    { rows: 1000, rho: 0 },
    { rows: 5000, rho: 0 },
    { rows: 5000, rho: 0.3 },
    { rows: 5000, rho: 0.6 },
    { rows: 20000, rho: 0.6 },
  ])("is that of the simulation: $rows rows, correlation $rho", ({ rows, rho }) => {
    const found = Array.from(
      { length: 12 },
      (_, seed) => toCurve(noisy(rows, { sd: 0.001, rho, seed }), options).noise,
    );
    const sd = found.reduce((sum, noise) => sum + noise.sd, 0) / found.length;
    const lagOne = found.reduce((sum, noise) => sum + noise.lagOne, 0) / found.length;
    expect(sd / 0.001).toBeGreaterThan(0.93);
    expect(sd / 0.001).toBeLessThan(1.07);
    expect(Math.abs(lagOne - rho)).toBeLessThan(0.06);
  });

  test("is hardly pulled up by twenty spikes of 500 standard deviations", () => {
    const run = noisy(5000, { sd: 0.001, rho: 0, seed: 3 });
    for (let i = 100; i < 5000; i += 250) run.mass[i]! += 0.5;
    const { sd } = toCurve(run, options).noise;
    expect(sd).toBeLessThan(0.0013);
  });
});
