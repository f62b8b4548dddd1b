import { describe, expect, test } from "vitest";
import { addTo, addWeight, evaluate, functional } from "../../src/curve/functional.ts";
import { massAt } from "../../src/curve/massAt.ts";
import { noiseOf } from "../../src/curve/noiseOf.ts";
import { toCurve } from "../../src/curve/toCurve.ts";
import { losses } from "../../src/losses/losses.ts";
import type { Rule, Window } from "../../src/losses/types.ts";
import { seededRandom } from "../../src/numerics/seededRandom.ts";
import { measureIndex } from "../../src/phases/measureIndex.ts";
import { protocols } from "../../src/protocol/protocols.ts";
import { settle } from "../../src/protocol/settle.ts";
import { makeRun, ramp } from "../makeRun.ts";

const sigmoid = (T: number, at: number, width: number) => 1 / (1 + Math.exp((at - T) / width));
const tg = (T: number) => 30 - 3 * sigmoid(T, 120, 8) - 2 * sigmoid(T, 280, 9) - 0.0004 * T;

const windows: Window[] = [
  { name: "step", from_C: 50, to_C: 220, rule: "step" },
  { name: "area", from_C: 220, to_C: 350, rule: "area" },
  { name: "tangent", from_C: 220, to_C: 350, rule: "tangent", tangent: { before_C: [190, 225], after_C: [335, 380] } },
];
const protocol = settle({
  ...protocols.csa,
  windows,
  uncertainty: { ...protocols.csa.uncertainty, temperature_u_C: 0, buoyancy_u_mg: 0 },
});

/** Runs of one curve with noise of known size and correlation. */
function study(rows: number, { rho, draws }: { rho: number; draws: number }) {
  const { temperature, time } = ramp(25, 1000, { rows, rate: 10 });
  const clean = temperature.map(tg);
  const values: Record<Rule, number[]> = { step: [], area: [], tangent: [] };
  const predicted: Record<Rule, number> = { step: 0, area: 0, tangent: 0 };
  for (let draw = 0; draw < draws; draw++) {
    const random = seededRandom(`noise ${rows} ${rho} ${draw}`);
    let e = random.normal();
    const mass = clean.map((m) => {
      e = rho * e + Math.sqrt(1 - rho * rho) * random.normal();
      return m + 0.001 * e;
    });
    const curve = { ...toCurve(makeRun(temperature, mass, { time }), protocol), noise: { sd: 0.001, lagOne: rho } };
    const found = losses(curve, protocol);
    if ("missing" in found.ignited) throw new Error("no ignited mass");
    const context = { curve, uncertainty: protocol.uncertainty, file: "a", balance: null, blank: null };
    const reference = { ...found.ignited, terms: [] };
    for (const { window, peak, ...byRule } of found.losses) {
      const input = { window, rule: window.rule, loss: byRule[window.rule], peak, reference, bracket: null };
      const index = measureIndex(context, input);
      if ("missing" in index) throw new Error(index.missing);
      values[window.rule].push(index.value);
      predicted[window.rule] += index.terms.find(({ cause }) => cause === "noise")!.effect / draws;
    }
  }
  return { values, predicted };
}

function deviation(values: number[]): number {
  const mean = values.reduce((a, b) => a + b, 0) / values.length;
  return Math.sqrt(values.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (values.length - 1));
}

describe("noise through the weights", () => {
  // 2,000 draws know a standard deviation to 1.6 %: 5 % are three of these.
  test.for([
    { rows: 1200, rho: 0 },
    { rows: 1200, rho: 0.5 },
  ])("is what 2,000 runs show, within 5 %: $rows rows, correlation $rho", { timeout: 120_000 }, ({ rows, rho }) => {
    const { values, predicted } = study(rows, { rho, draws: 2000 });
    for (const rule of ["step", "area", "tangent"] as const) {
      const ratio = predicted[rule] / deviation(values[rule]);
      expect(ratio, rule).toBeGreaterThan(0.95);
      expect(ratio, rule).toBeLessThan(1.05);
    }
  });

  test("covers how far the integral of the DTG lies from the step: four standard deviations of that very difference", () => {
    const { temperature, time } = ramp(25, 1000, { rows: 5000, rate: 10 });
    for (let seed = 0; seed < 20; seed++) {
      const random = seededRandom(`integral ${seed}`);
      const mass = temperature.map((T) => tg(T) + 0.002 * random.normal());
      const curve = { ...toCurve(makeRun(temperature, mass, { time }), protocol), noise: { sd: 0.002, lagOne: 0 } };
      for (const { from_C, to_C } of windows) {
        const difference = functional();
        addTo(difference, massAt(curve, from_C, "leaving")!, -1);
        addTo(difference, massAt(curve, to_C, "entering")!, 1);
        curve.temperature.forEach((T, k) => {
          // Trapezoids of half a degree between the edges.
          if (T >= from_C && T <= to_C) addWeight(difference.dtg, k, T === from_C || T === to_C ? 0.25 : 0.5);
        });
        expect(Math.abs(evaluate(curve, difference))).toBeLessThan(4 * noiseOf(curve, difference));
      }
    }
  });

  test("never falls below the print resolution", () => {
    const { temperature, time } = ramp(25, 1000, { rows: 5000, rate: 10 });
    const rounded = temperature.map((T) => Math.round(100 * tg(T)) / 100);
    const curve = toCurve(makeRun(temperature, rounded, { time, resolution: 0.01 }), protocol);
    const found = losses(curve, protocol);
    const [first] = found.losses;
    if ("missing" in found.ignited || "missing" in first!.step) throw new Error("nothing measured");
    const context = { curve, uncertainty: protocol.uncertainty, file: "a", balance: null, blank: null };
    const { window, step: loss } = first!;
    const index = measureIndex(context, {
      window,
      rule: "step",
      loss,
      peak: null,
      reference: { ...found.ignited, terms: [] },
      bracket: null,
    });
    const least = (100 * 0.01) / Math.sqrt(12) / found.ignited.value;
    expect("terms" in index && index.terms[0]!.effect).toBeGreaterThanOrEqual(least);
    expect(noiseOf(curve, found.ignited.weights)).toBeGreaterThan(0);
  });
});
