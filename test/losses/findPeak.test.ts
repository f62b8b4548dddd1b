import { describe, expect, test } from "vitest";
import { noiseOf } from "../../src/curve/noiseOf.ts";
import { toCurve } from "../../src/curve/toCurve.ts";
import type { Curve } from "../../src/curve/types.ts";
import { findPeak } from "../../src/losses/findPeak.ts";
import { makeRun, ramp } from "../makeRun.ts";

const options = { grid: { step_C: 0.5 }, smoothing: { width_C: 10, degree: 3 } };
const sigmoid = (T: number, at: number, width: number) => 1 / (1 + Math.exp((at - T) / width));

function curveOf(tg: (T: number) => number, more: { from?: number; to?: number; resolution?: number } = {}): Curve {
  const { from = 25, to = 400, resolution = 0 } = more;
  const { temperature, time } = ramp(from, to, { rows: (to - from) * 4, rate: 10 });
  return toCurve(makeRun(temperature, temperature.map(tg), { time, resolution }), options);
}
const within = (curve: Curve, from_C: number, to_C: number) => findPeak(curve, { from_C, to_C });

describe("a peak of the DTG", () => {
  test("stands where the parabola of a cubic TG has its summit, between grid points too", () => {
    // DTG = 0.02 − 1e-6·(T − 150.2)²: the smoothing of degree 3 passes it unchanged.
    const curve = curveOf((T) => 30 - 0.02 * (T - 25) + (1e-6 * (T - 150.2) ** 3) / 3);
    const peak = within(curve, 60, 250)!;
    expect(peak.temperature).toBeCloseTo(150.2, 4);
    expect(peak.dtg).toBeCloseTo(0.02, 7);
  });

  test.for([
    [60, 250, true],
    [150.5, 250, false],
    [60, 150, false],
    [149.5, 151, true],
    [150.2, 150.2, false],
    [300, 350, false],
  ] as const)("stands inside the window from %d to %d °C, not at its edge: %s", ([from, to, inside]) => {
    // 0.02 − 5e-3·(T − 150.2)² about the summit: one grid step away it is lower by more than a hundredth.
    const curve = curveOf((T) => 30 - 0.02 * T - 0.4 * sigmoid(T, 150.2, 2));
    expect(within(curve, from, to) !== null).toBe(inside);
  });

  test("is the highest of the window", () => {
    const tg = (T: number) => 30 - sigmoid(T, 120, 5) - 2 * sigmoid(T, 180, 5) - 0.5 * sigmoid(T, 240, 5);
    const curve = curveOf(tg);
    expect(within(curve, 60, 300)!.temperature).toBeCloseTo(180, 1);
    expect(within(curve, 60, 150)!.temperature).toBeCloseTo(120, 1);
    expect(within(curve, 210, 300)!.temperature).toBeCloseTo(240, 1);
  });

  test.for([
    [0.5, false],
    [0.9, false],
    [1.2, true],
    [3, true],
  ] as const)(
    "of a quiet run stands out if it is %d % of its height above the higher valley beside it: %s",
    ([pct, is]) => {
      // A bump of height h on a constant 0.1 mg/°C is h/(0.1 + h) of its height; a logistic step A has the height A/(4·8).
      const h = (0.1 * pct) / (100 - pct);
      const curve = curveOf((T) => 60 - 0.1 * (T - 25) - 32 * h * sigmoid(T, 150, 8));
      expect(within(curve, 60, 250) !== null).toBe(is);
    },
  );

  test.for([
    [0.5, false],
    [2, true],
  ] as const)(
    "is measured from the higher of the two valleys, whichever side it is on: %d % of its height, %s",
    ([pct, is]) => {
      // The DTG is nothing on one side of 150 °C and 0.1 mg/°C on the other, where the bump is.
      const h = (0.1 * pct) / (100 - pct);
      for (const side of [1, -1] as const) {
        const curve = curveOf((T) => {
          const beyond = (side * (T - 150)) / 3;
          return 60 - side * 0.3 * Math.log1p(Math.exp(beyond)) - 32 * h * sigmoid(T, 150 + side * 70, 8);
        });
        expect(within(curve, 60, 300) !== null).toBe(is);
      }
    },
  );

  test.for([
    [0.9, false],
    [1.1, true],
  ] as const)(
    "%d times as high as seven standard deviations of a difference by the print is one: %s",
    ([times, is]) => {
      const resolution = 0.001;
      const shape = (A: number) => curveOf((T) => 30 - A * sigmoid(T, 150, 8), { resolution });
      const flat = shape(0);
      const noise = { sd: resolution / Math.sqrt(12), lagOne: 0 };
      const k = flat.temperature.indexOf(150);
      const none = { at: [], w: [] };
      const deviation =
        Math.SQRT2 * noiseOf({ ...flat, noise }, { mass: none, readings: none, dtg: { at: [k], w: [1] } });
      // The smoothing over 10 °C lowers a logistic peak of the width 8 °C by under 1 %.
      const curve = shape(times * 7 * deviation * 32);
      expect(within({ ...curve, noise: { ...curve.noise, sd: 0 } }, 60, 250) !== null).toBe(is);
    },
  );

  test("noise of the balance counts where it is more than the print", () => {
    const curve = curveOf((T) => 30 - 0.05 * sigmoid(T, 150, 8));
    expect(within({ ...curve, noise: { ...curve.noise, sd: 1e-5, lagOne: 0 } }, 60, 250)).not.toBeNull();
    expect(within({ ...curve, noise: { ...curve.noise, sd: 1e-2, lagOne: 0 } }, 60, 250)).toBeNull();
  });

  test.for([0, 1])("is not named at the end of a piece, though the next one goes on at the next degree (%i)", (off) => {
    const curve = curveOf((T) => 30 - 2 * sigmoid(T, 150, 8));
    const [piece] = curve.pieces;
    const top = curve.dtg.indexOf(Math.max(...curve.dtg)) + off;
    const pieces = [
      { ...piece!, gridEnd: top },
      { ...piece!, gridFirst: top },
    ];
    expect(within(curve, 60, 250)).not.toBeNull();
    expect(within({ ...curve, pieces }, 60, 250)).toBeNull();
  });

  test("is not named across an isothermal", () => {
    const temperature: number[] = [];
    const time: number[] = [];
    for (let t = 0; t <= 3600; t += 2) {
      time.push(t);
      temperature.push(t < 750 ? 25 + t / 6 : t < 1650 ? 150 : 150 + (t - 1650) / 6);
    }
    // Highest beside the isothermal, where the heating was cut.
    const mass = temperature.map((T) => 30 - 2 * sigmoid(T, 150, 8));
    expect(within(toCurve(makeRun(temperature, mass, { time }), options), 60, 250)).toBeNull();
  });

  test.for([150, 150.25, 150.5])(
    "is not named beside an isothermal that coarse readings leave no gap for: %d °C",
    (hold) => {
      // Readings 2 °C apart: the grids before and after the hold may touch.
      const temperature: number[] = [];
      const time: number[] = [];
      const begins = (hold - 25) * 6;
      for (let t = 0; t <= 3600; t += 12) {
        time.push(t);
        temperature.push(t < begins ? 25 + t / 6 : Math.max(hold, hold + (t - begins - 900) / 6));
      }
      const mass = temperature.map((T) => 30 - 2 * sigmoid(T, hold, 8));
      const curve = toCurve(makeRun(temperature, mass, { time }), options);
      expect(curve.pieces.length).toBe(2);
      expect(within({ ...curve, noise: { sd: 0, lagOne: 0 } }, 60, 250)).toBeNull();
    },
  );

  test("moves with the readings as its weights say, and its weights are on the DTG only", () => {
    // Skew: the summit is not in the middle of what is fitted.
    const tg = (T: number) => 30 - 2 * sigmoid(T, 150, 6) - 0.7 * sigmoid(T, 163, 5);
    const pushes = [
      (T: number) => Math.sin(T / 4),
      (T: number) => Math.exp(-(((T - 152) / 5) ** 2)),
      (T: number) => T / 40,
    ];
    for (const push of pushes) {
      const small = 1e-4;
      const before = curveOf(tg);
      const after = curveOf((T) => tg(T) + small * push(T));
      const { jitter, temperature } = within(before, 60, 250)!;
      expect([jitter.mass.at, jitter.readings.at]).toEqual([[], []]);
      const predicted = jitter.dtg.at.reduce(
        (sum, k, i) => sum + jitter.dtg.w[i]! * (after.dtg[k]! - before.dtg[k]!),
        0,
      );
      const moved = within(after, 60, 250)!.temperature - temperature;
      expect(Math.abs(moved - predicted)).toBeLessThan(0.02 * Math.abs(moved) + 1e-6);
    }
  });

  test("close to an end of the run is found with what is there of the smoothing width", () => {
    for (const [from, to] of [
      [147, 400],
      [25, 153],
    ] as const) {
      const curve = curveOf((T) => 30 - 2 * sigmoid(T, 150, 6), { from, to });
      const peak = within(curve, from, to)!;
      expect(Math.abs(peak.temperature - 150)).toBeLessThan(0.3);
      expect(peak.dtg / (2 / 24)).toBeCloseTo(1, 1);
    }
  });

  // A quartic TG has a cubic DTG, which a symmetric filter of degree 3 passes unchanged; the grid means add step²/24·DTG″.
  test.for([
    [2, 24, 150.9, 1e-6],
    [2, 24, 149.2, -1e-6],
    [0.5, 10, 150.2, 1e-6],
    [1, 4, 150.4, 5e-7],
    [5, 20, 148, 1e-6],
  ] as const)("skew on a grid of %d °C smoothed over %d °C stands at %d °C", ([step_C, width_C, at, skew]) => {
    const q = 1e-4;
    const dtg = (T: number) => 0.3 - q * (T - at) ** 2 + skew * (T - at) ** 3;
    const tg = (T: number) => 60 - 0.3 * (T - at) + (q * (T - at) ** 3) / 3 - (skew * (T - at) ** 4) / 4;
    const { temperature, time } = ramp(95, 205, { rows: 8000, rate: 10 });
    const run = makeRun(temperature, temperature.map(tg), { time });
    const curve = toCurve(run, { grid: { step_C }, smoothing: { width_C, degree: 3 } });
    const peak = within(curve, 110, 190)!;
    // −2qx + 3rx² + r·step²/4 = 0
    const shift = (q - Math.sqrt(q * q - (3 * skew * skew * step_C ** 2) / 4)) / (3 * skew);
    expect(Math.abs(peak.temperature - at - shift)).toBeLessThan(2e-3);
    expect(Math.abs(peak.dtg - dtg(at + shift) - ((6 * skew * shift - 2 * q) * step_C ** 2) / 24)).toBeLessThan(2e-6);
  });

  test("is as high as its summit between grid points, not as its highest grid point", () => {
    const q = 1e-4;
    const { temperature, time } = ramp(95, 205, { rows: 8000, rate: 10 });
    const tg = (T: number) => 60 - 0.3 * (T - 150.9) + (q * (T - 150.9) ** 3) / 3;
    const run = makeRun(temperature, temperature.map(tg), { time });
    const curve = toCurve(run, { grid: { step_C: 2 }, smoothing: { width_C: 24, degree: 3 } });
    const peak = within(curve, 110, 190)!;
    const top = Math.max(...curve.dtg);
    // 0.9 °C from the grid point at 150 °C: 1e-4·0.81 higher.
    expect(peak.dtg - top).toBeCloseTo(0.81e-4, 6);
    expect(peak.temperature).toBeCloseTo(150.9, 3);
  });
});

/** A curve whose DTG is these values at 100, 101, 102 … °C, without noise; cut in two pieces at an index if there is one. */
function gridOf(dtg: number[], { reach = 2, cut }: { reach?: number; cut?: number } = {}): Curve {
  const n = dtg.length;
  const { temperature, time } = ramp(99.5, 99.5 + n, { rows: 4 * n + 1, rate: 10 });
  const run = makeRun(
    temperature,
    temperature.map((T) => 30 - T / 100),
    { time },
  );
  const curve = toCurve(run, { grid: { step_C: 1 }, smoothing: { width_C: 2 * reach, degree: 3 } });
  expect([...curve.temperature]).toEqual(dtg.map((_, k) => 100 + k));
  const [piece] = curve.pieces as [Curve["pieces"][0]];
  const pieces =
    cut === undefined
      ? [piece]
      : [
          { ...piece, gridEnd: cut },
          { ...piece, gridFirst: cut, firstPoint: piece.firstPoint + cut },
        ];
  return { ...curve, pieces, dtg: Float64Array.from(dtg), noise: { sd: 0, lagOne: 0 } };
}
const ofAll = (curve: Curve) => within(curve, 0, 1000);

describe("on a DTG given point by point", () => {
  test("the colder of two equally high summits is named", () => {
    expect(ofAll(gridOf([0, 1, 4, 1, 0, 1, 4, 1, 0]))!.temperature).toBe(102);
  });

  test("a lower summit is not named where the last point of the window is the highest", () => {
    const curve = gridOf([0, 2, 4, 2, 0, 5]);
    expect(ofAll(curve)).toBeNull();
    expect(within(curve, 100, 104)!.temperature).toBe(102);
  });

  test.for([
    [106, 200],
    [0, 99],
    [102.2, 102.8],
    [104, 102],
  ] as const)("a window without grid points has none: %d to %d °C", ([from, to]) => {
    expect(within(gridOf([0, 2, 4, 2, 0, 0]), from, to)).toBeNull();
  });

  test("the hotter valley counts though the colder flank is steep", () => {
    expect(ofAll(gridOf([0, 0, 0, 5, 9, 8.95, 8.95, 8.95, 8.95]))).toBeNull();
    expect(ofAll(gridOf([0, 0, 0, 5, 9, 8.5, 8.5, 8.5, 8.5]))).not.toBeNull();
  });

  test("just a hundredth of its height above the valleys is not prominent", () => {
    expect(ofAll(gridOf([99, 99, 99, 100, 99, 99, 99]))).toBeNull();
    expect(ofAll(gridOf([98.875, 98.875, 98.875, 100, 98.875, 98.875, 98.875]))!.temperature).toBeCloseTo(103, 12);
  });

  test("a run that gains mass at a steady rate after a faster gain has none", () => {
    expect(ofAll(gridOf([-2, -2, -2, -1, -1, -1, -1]))).toBeNull();
  });

  // Five points, Savitzky–Golay (Anal Chem 36:1627, 1964): −3, 12, 17, 12, −3 over 35 for the value.
  test.for([
    ["bends upwards", [4, 1, 5, 1, 4], 85 / 35],
    ["is flat", [2, 0, 4, 0, 2], 56 / 35],
  ] as const)("the highest point itself is named, with no jitter, where the cubic %s", ([, five, height]) => {
    const peak = ofAll(gridOf([0, 0, 0, ...five, 0, 0, 0]))!;
    expect(peak.temperature).toBe(105);
    expect(peak.dtg).toBeCloseTo(height, 12);
    expect(peak.jitter.dtg).toEqual({ at: [], w: [] });
  });

  test("the highest point itself is named where the cubic only rises", () => {
    // x + x³ and a spike of 11: b = 1, d = 1, c = −11/7, so c² < 3bd.
    const peak = ofAll(gridOf([0, 0, 10, 18, 31, 22, 30, 0, 0]))!;
    expect(peak.temperature).toBe(104);
    // The weights of the value again: (−3·10 + 12·18 + 17·31 + 12·22 − 3·30)/35.
    expect(peak.dtg).toBeCloseTo(887 / 35, 12);
  });

  test("a spike beside the summit is left behind: the last fit is about the summit", () => {
    // A parabola with its summit at 115.25 °C, and a reading six degrees colder that is higher than it.
    const dtg = Array.from({ length: 31 }, (_, k) => 256 - (k - 15.25) ** 2);
    dtg[9] = 257;
    const peak = ofAll(gridOf(dtg, { reach: 5 }))!;
    expect(peak.temperature).toBeCloseTo(115.25, 9);
    expect(peak.dtg).toBeCloseTo(256, 9);
  });

  test("the fit does not move to where fewer than three points are left on a side", () => {
    // −(x − 2)² and a spike of 21 at 0. Seven points: the value is −4 + 21·7/21, the slope 4, and half the second
    // derivative −1 − 21·2/42 (weights 5, 0, −3, −4 … over 42 for the second derivative, ibid.): summit at 4/(2·2) = 1.
    const seven = [-3, -2, -1, 0, 1, 2, 3].map((x) => 100 - (x - 2) ** 2 + (x === 0 ? 21 : 0));
    const peak = ofAll(gridOf([0, 0, 0, ...seven], { reach: 3 }))!;
    expect(peak.temperature).toBeCloseTo(107, 9);
    expect(peak.dtg).toBeCloseTo(100 + 3 + 4 - 2, 9);
  });

  test("what is before an isothermal has no part in a peak soon after it", () => {
    const peak = ofAll(gridOf([0, 0, 0, 0, 0, 0, 0, 2.5, 0, 3, 4, 3, 0, 0, 0, 0], { reach: 3, cut: 8 }))!;
    expect(peak.temperature).toBeCloseTo(110, 12);
    // (2·12·3 + 17·4)/35
    expect(peak.dtg).toBeCloseTo(4, 12);
  });

  test("one point from an isothermal it is the summit of the parabola through three points", () => {
    // 6 + x − 3x²
    const peak = ofAll(gridOf([0, 0, 0, 0, 0, 0, 2, 6, 4, 3, 0, 0], { reach: 3, cut: 6 }))!;
    expect(peak.temperature).toBeCloseTo(107 + 1 / 6, 12);
    expect(peak.dtg).toBeCloseTo(6 + 1 / 12, 12);
    // The summit is (y₊ − y₋)/2/(2y₀ − y₋ − y₊), here 2/12: its derivatives by the quotient rule.
    expect(peak.jitter.dtg.at).toEqual([6, 7, 8]);
    for (const [i, w] of [-1 / 12 + 1 / 36, -1 / 18, 1 / 12 + 1 / 36].entries()) {
      expect(peak.jitter.dtg.w[i]).toBeCloseTo(w, 12);
    }
  });

  test("beside an isothermal there is none, though the temperatures go on without a gap", () => {
    const dtg = [0, 0, 1, 2, 3, 4, 6, 4, 3, 2, 1, 0];
    expect(ofAll(gridOf(dtg, { cut: 6 }))).toBeNull();
    expect(ofAll(gridOf(dtg, { cut: 7 }))).toBeNull();
    expect(ofAll(gridOf(dtg))).not.toBeNull();
  });

  test("the jitter is the derivative of the temperature by every point of the DTG", () => {
    const dtg = Array.from({ length: 21 }, (_, k) => 120 - (k - 10.25) ** 2 + (k - 10.25) ** 3 / 16);
    const { jitter } = within(gridOf(dtg, { reach: 4 }), 104, 116)!;
    const weights = new Map(jitter.dtg.at.map((k, i) => [k, jitter.dtg.w[i]!]));
    expect([...weights.keys()]).toEqual([6, 7, 8, 9, 10, 11, 12, 13, 14]);
    const pushed = (k: number, by: number) =>
      within(gridOf(dtg.with(k, dtg[k]! + by), { reach: 4 }), 104, 116)!.temperature;
    for (let k = 5; k <= 15; k++) {
      expect((pushed(k, 1e-4) - pushed(k, -1e-4)) / 2e-4).toBeCloseTo(weights.get(k) ?? 0, 7);
    }
  });
});
