import { describe, expect, test } from "vitest";
import { addShape, type MeanShape, meanShape, type ShapeSums, shapeOf } from "../../src/curve/meanShape.ts";
import { toCurve } from "../../src/curve/toCurve.ts";
import { seededRandom } from "../../src/numerics/seededRandom.ts";
import { protocols } from "../../src/protocol/protocols.ts";
import { settle } from "../../src/protocol/settle.ts";
import type { Protocol } from "../../src/protocol/types.ts";
import { makeRun, ramp } from "../makeRun.ts";

/** Integral of a Gaussian peak of unit area from −∞ (error function: Abramowitz and Stegun 7.1.26, 1.5e-7). */
const step = (T: number, at: number, width: number) => {
  const x = (T - at) / (width * Math.SQRT2);
  const t = 1 / (1 + 0.3275911 * Math.abs(x));
  const tail =
    t *
    (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429)))) *
    Math.exp(-x * x);
  return x >= 0 ? 1 - tail / 2 : tail / 2;
};

/** 30 mg with peaks at 110, at `second` and at 275 °C. */
function run(second: number, seed: string, noise = 0.001) {
  const random = seededRandom(seed);
  const { temperature, time } = ramp(25, 600, { rows: 2300, rate: 10 });
  const steps = temperature.map((T) => 3 * step(T, 110, 14) + 1.2 * step(T, second, 14) + 1.4 * step(T, 275, 12));
  return makeRun(
    temperature,
    steps.map((lost) => 30 - lost + noise * random.normal()),
    { time },
  );
}

const protocol: Protocol = {
  ...protocols.csa,
  windows: [
    {
      name: "aft-afm",
      from_C: 50,
      to_C: 220,
      rule: "step",
      placement: { edges: "shared", tolerance_C: 20 },
      resolve: { between_C: [130, 180], into: ["aft", "afm"] },
    },
    { name: "ah3", from_C: 220, to_C: 350, rule: "area", placement: { edges: "shared", tolerance_C: 20 } },
  ],
};

function meanOf(seconds: Record<string, number[]>, noise?: number): MeanShape | null {
  const sums: ShapeSums = { regimes: new Map() };
  for (const [regime, peaks] of Object.entries(seconds)) {
    for (const [i, peak] of peaks.entries()) {
      addShape(sums, regime, shapeOf(toCurve(run(peak, `${regime} ${i}`, noise), protocol)));
    }
  }
  return meanShape(sums);
}

describe("shared placement", () => {
  const mean = meanOf({ sealed: [185, 185], moist: [185] });
  const settled = settle(protocol, { mean });

  test("moves an edge to the campaign's minimum, the same for both windows beside it", () => {
    // Equal Gaussians (height 1.2/14 and 1.4/12) at 185 and 275 °C of widths 14 and 12 meet near 233 °C.
    const [aft, , , ah3] = settled.windows;
    expect(aft!.to_C).toBeGreaterThan(228);
    expect(aft!.to_C).toBeLessThan(240);
    expect(ah3!.from_C).toBe(aft!.to_C);
  });

  test("keeps the fixed edge where there is no valley, and records both", () => {
    expect(settled.windows[0]!.from_C).toBe(50);
    expect(settled.settled.edges).toMatchObject([
      { window: "aft-afm", edge: "from", fixed_C: 50, placed_C: null, prominence: null },
      { window: "aft-afm", edge: "to", fixed_C: 220, placed_C: settled.windows[0]!.to_C },
      { window: "ah3", edge: "from", fixed_C: 220, placed_C: settled.windows[0]!.to_C },
      { window: "ah3", edge: "to", fixed_C: 350, placed_C: null },
    ]);
    expect(settled.settled.by).toBe("3 runs of 2 regimes");
  });

  test("parts a window at a prominent minimum, as steps", () => {
    expect(settled.windows.map(({ name }) => name)).toEqual(["aft-afm", "aft", "afm", "ah3"]);
    const [whole, aft, afm] = settled.windows;
    expect([aft!.from_C, afm!.to_C, aft!.rule, afm!.rule]).toEqual([whole!.from_C, whole!.to_C, "step", "step"]);
    expect(aft!.to_C).toBe(afm!.from_C);
    expect(settled.settled.resolved).toMatchObject([{ window: "aft-afm", at_C: aft!.to_C }]);
  });

  test("leaves one window where the peaks run into one another, and records that", () => {
    const merged = settle(protocol, { mean: meanOf({ sealed: [125], moist: [128] }) });
    expect(merged.windows.map(({ name }) => name)).toEqual(["aft-afm", "ah3"]);
    expect(merged.settled.resolved).toEqual([{ window: "aft-afm", at_C: null, prominence: null }]);
  });

  test("takes no minimum of the noise for a valley", () => {
    const noisy = settle(protocol, { mean: meanOf({ sealed: [118], moist: [119] }, 0.02) });
    expect(noisy.settled.resolved![0]!.at_C).toBeNull();
  });

  test("weights every regime equally: many runs of one do not outvote the other", () => {
    const one = meanOf({ a: [185], b: [175] })!;
    const many = meanOf({ a: [185, 185, 185, 185], b: [175] })!;
    const largest = Math.max(...one.dtg.map((value, i) => Math.abs(value - many.dtg[i]!)));
    expect(largest).toBeLessThan(6 * one.noise);
  });

  test("settled once is settled: it needs no curves and stays the same, also from JSON", () => {
    expect(settle(JSON.parse(JSON.stringify(settled)))).toEqual(settled);
  });

  test("asks for the mean DTG where it needs it", () => {
    expect(() => settle(protocol)).toThrow(
      new TypeError("Give the mean DTG of the campaign: the protocol places edges or parts windows by it"),
    );
  });

  test("with nothing in common the fixed edges stay, and that is recorded", () => {
    const fixed = settle(protocol, { mean: null });
    expect(fixed.windows.map(({ from_C, to_C }) => [from_C, to_C])).toEqual([
      [50, 220],
      [220, 350],
    ]);
    expect(fixed.settled.by).toBe("no common curve: fixed edges");
  });
});

test("the noise of the mean DTG is that of many seeds, within 20 %", () => {
  const values: number[] = [];
  let predicted = 0;
  for (let seed = 0; seed < 60; seed++) {
    const shape = shapeOf(toCurve(run(185, `noise ${seed}`), protocol));
    values.push(shape.dtg[1000]!);
    predicted += shape.noise / 60;
  }
  const mean = values.reduce((a, b) => a + b, 0) / 60;
  const sd = Math.sqrt(values.reduce((sum, x) => sum + (x - mean) ** 2, 0) / 59);
  expect(predicted / sd).toBeGreaterThan(0.75);
  expect(predicted / sd).toBeLessThan(1.35);
});
