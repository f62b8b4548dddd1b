import { describe, expect, test } from "vitest";
import type { Functional } from "../../src/curve/functional.ts";
import { noiseOf } from "../../src/curve/noiseOf.ts";
import { toCurve } from "../../src/curve/toCurve.ts";
import type { Curve } from "../../src/curve/types.ts";
import { noiseCovariance } from "../../src/losses/noiseCovariance.ts";
import { peakRange } from "../../src/losses/peakRange.ts";
import { makeRun, ramp } from "../makeRun.ts";

const options = { grid: { step_C: 0.5 }, smoothing: { width_C: 10, degree: 3 } };
function quiet(noise: { sd: number; lagOne: number }, resolution = 0): Curve {
  const { temperature, time } = ramp(25, 400, { rows: 1500, rate: 10 });
  const curve = toCurve(
    makeRun(
      temperature,
      temperature.map((T) => 30 - 0.001 * T),
      { time, resolution },
    ),
    options,
  );
  return { ...curve, noise: { ...curve.noise, ...noise } };
}
const none = { at: [], w: [] };
const onReadings = (at: number[], w: number[]): Functional => ({ mass: none, dtg: none, readings: { at, w } });
const onDtg = (at: number[], w: number[]): Functional => ({ mass: none, readings: none, dtg: { at, w } });

describe("the covariance by noise", () => {
  test.for([0, 0.6, -0.3])("of readings is σ²ΣΣ wᵢvⱼρ^|i−j|, term by term, at ρ = %d", (lagOne) => {
    const a = { at: [3, 4, 7], w: [0.5, -1, 2] };
    const b = { at: [6, 7, 12], w: [1, 0.25, -3] };
    const sd = 0.002;
    const sum = (one: typeof a, other: typeof a) =>
      one.at.reduce(
        (total, i, k) =>
          total + other.at.reduce((row, j, l) => row + one.w[k]! * other.w[l]! * lagOne ** Math.abs(i - j), 0),
        0,
      );
    const found = noiseCovariance(quiet({ sd, lagOne }), [onReadings(a.at, a.w), onReadings(b.at, b.w)]);
    for (const [k, one] of [a, b].entries()) {
      for (const [l, other] of [a, b].entries()) expect(found[k]![l]! / sd ** 2).toBeCloseTo(sum(one, other), 9);
    }
  });

  test.for([0, 0.6])("of one functional of the DTG is the square of its noise, at ρ = %d", (lagOne) => {
    const curve = quiet({ sd: 0.002, lagOne });
    const one = onDtg([100, 140], [1, -2]);
    expect(noiseCovariance(curve, [one])[0]![0]! / noiseOf(curve, one) ** 2).toBeCloseTo(1, 9);
  });

  test("that share no reading is none, in whatever order they come", () => {
    const curve = quiet({ sd: 0.002, lagOne: 0 });
    const found = noiseCovariance(curve, [onDtg([500], [1]), onDtg([100], [1])]);
    expect(found[0]![1]).toBe(0);
    expect(found[0]![0]! / found[1]![1]!).toBeCloseTo(1, 1);
  });

  test("is never below that of the print, d/√12", () => {
    const one = onReadings([5], [1]);
    expect(noiseCovariance(quiet({ sd: 1e-6, lagOne: 0 }, 0.001), [one])[0]![0]! * 12e6).toBeCloseTo(1, 9);
    expect(noiseCovariance(quiet({ sd: 0.002, lagOne: 0 }, 0.001), [one])[0]![0]! / 4e-6).toBeCloseTo(1, 9);
  });
});

describe("the grid points of a fit", () => {
  test.for([
    [50, 60, 50, 60, 21],
    [50.2, 60.1, 50.5, 60, 20],
    [49.8, 60.4, 50, 60, 21],
  ] as const)("from %d to %d °C go from %d to %d °C: %d", ([from_C, to_C, low, high, n]) => {
    const curve = quiet({ sd: 0, lagOne: 0 });
    const range = peakRange(curve, { from_C, to_C });
    if ("reason" in range) throw new Error(range.message);
    expect([curve.temperature[range.first], curve.temperature[range.end - 1], range.end - range.first]).toEqual([
      low,
      high,
      n,
    ]);
  });

  test.for([
    [20, 60],
    [50, 401],
  ] as const)("from %d to %d °C the run does not have", ([from_C, to_C]) => {
    expect(peakRange(quiet({ sd: 0, lagOne: 0 }), { from_C, to_C })).toEqual({
      reason: "window-truncated",
      message: `The fit needs ${from_C}–${to_C} °C; the heating goes from 25.0 to 400.0 °C.`,
    });
  });

  test("end with the piece they are in", () => {
    const curve = quiet({ sd: 0, lagOne: 0 });
    const range = peakRange(curve, { from_C: 25, to_C: 400 });
    if ("reason" in range) throw new Error(range.message);
    expect([range.first, range.end]).toEqual([0, curve.temperature.length]);
  });
});
