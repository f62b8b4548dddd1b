import { describe, expect, test } from "vitest";
import { toCurve } from "../../src/curve/toCurve.ts";
import type { Curve } from "../../src/curve/types.ts";
import type { PeakProblem } from "../../src/losses/fitTypes.ts";
import { noiseCovariance } from "../../src/losses/noiseCovariance.ts";
import { peakErrors } from "../../src/losses/peakErrors.ts";
import { makeRun, ramp } from "../makeRun.ts";

/** Readings 0.25 °C apart, grid points 0.5 °C: away from the ends the noise of the DTG is the same at every point. */
function quiet(noise: { sd: number; lagOne: number }): Curve {
  const { temperature, time } = ramp(25, 400, { rows: 1501, rate: 10 });
  const mass = temperature.map((T) => 30 - 0.001 * T);
  const options = { grid: { step_C: 0.5 }, smoothing: { width_C: 10, degree: 3 } };
  return { ...toCurve(makeRun(temperature, mass, { time }), options), noise };
}

/** A straight line fitted to n values from the grid point `first` on: all of its algebra is known. */
function lineProblem(curve: Curve, y: readonly number[], first: number): PeakProblem {
  const n = y.length;
  const none = () => new Float64Array(n);
  return {
    spec: { peaks: [], from_C: 0, to_C: 0, baseline: "linear" },
    range: { piece: curve.pieces[0]!, first, end: first + n },
    x: Float64Array.from(y, (_, k) => k),
    temperature: curve.temperature.slice(first, first + n),
    y: Float64Array.from(y),
    shapeOf: none,
    unit: none,
    model:
      ([height = 0, slope = 0]) =>
      (k) =>
        height + slope * k,
    start: [0, 0],
    typical: [1, 1],
  };
}

/** Covariance of n values of the DTG from the grid point `first` on. */
function covarianceOf(curve: Curve, n: number, first: number): number[][] {
  const none = { at: [], w: [] };
  return noiseCovariance(
    curve,
    Array.from({ length: n }, (_, k) => ({ mass: none, readings: none, dtg: { at: [first + k], w: [1] } })),
  );
}
const middleOf = (n: number) => (n - 1) / 2;
/** What a straight line follows of value l at value k. */
const hat = (n: number, k: number, l: number) =>
  1 / n + ((k - middleOf(n)) * (l - middleOf(n))) / ((n * (n * n - 1)) / 12);
/** (k − middle)² less its mean, (n² − 1)/12: a straight line has no part in it. */
const bow = (n: number, size: number) =>
  Array.from({ length: n }, (_, k) => size * ((k - middleOf(n)) ** 2 - (n * n - 1) / 12));
const meanSquare = (values: readonly number[]) => values.reduce((sum, v) => sum + v * v, 0) / values.length;

describe("what noise leaves of a fit", () => {
  test.for([
    [0, 0],
    [0, 0.4],
    [300, 0],
    [300, 0.4],
    [-12, 0.4],
  ] as const)(
    "is the trace of (1 − H)C over the number of points, from grid point %d on at ρ = %d",
    ([first, lagOne]) => {
      // As many points as variances are taken at: every one.
      const n = 12;
      const curve = quiet({ sd: 0.002, lagOne });
      // Counted from the end of the curve where negative.
      const start = first < 0 ? curve.temperature.length + first : first;
      const C = covarianceOf(curve, n, start);
      let trace = 0;
      for (let k = 0; k < n; k++) {
        for (let l = 0; l < n; l++) trace += ((k === l ? 1 : 0) - hat(n, k, l)) * C[k]![l]!;
      }
      const { expected } = peakErrors(curve, lineProblem(curve, bow(n, 1e-3), start), [0, 0]);
      expect(expected / (trace / n)).toBeCloseTo(1, 8);
    },
  );

  test.for([
    [101, 0.4],
    [101, 0],
    [13, 0.4],
    [13, 0],
  ] as const)("is exceeded from three standard deviations of it on: %d points at ρ = %d", ([n, lagOne]) => {
    const first = 300;
    const curve = quiet({ sd: 0.002, lagOne });
    // n/Σρ² points are as good as independent, and a mean square of m normal values has the variance 2/m of its square.
    const C = covarianceOf(curve, n, first);
    const m = middleOf(n);
    // 10 °C at 0.5 °C: two points further apart than 20 hardly share readings.
    const near = C[m]!.filter((_, l) => Math.abs(l - m) <= 20);
    const sum = near.reduce((total, c) => total + (c / C[m]![m]!) ** 2, 0);
    let trace = 0;
    for (let k = 0; k < n; k++) {
      for (let l = 0; l < n; l++) trace += ((k === l ? 1 : 0) - hat(n, k, l)) * C[k]![l]!;
    }
    const expected = trace / n;
    const limit = expected * (1 + 3 * Math.sqrt((2 * sum) / n));
    for (const times of [0.99, 1.01]) {
      const y = bow(n, Math.sqrt((times * limit) / meanSquare(bow(n, 1))));
      const errors = peakErrors(curve, lineProblem(curve, y, first), [0, 0]);
      expect(errors.meanSquare / (times * limit)).toBeCloseTo(1, 9);
      expect(errors.excess / expected).toBeCloseTo(times < 1 ? 0 : (times * limit) / expected - 1, 6);
    }
  });

  test("is nothing without noise: all that is left counts", () => {
    const curve = quiet({ sd: 0, lagOne: 0 });
    const y = bow(25, 1e-6);
    const { expected, excess } = peakErrors(curve, lineProblem(curve, y, 300), [0, 0]);
    expect(expected).toBe(0);
    expect(excess / meanSquare(y)).toBeCloseTo(1, 12);
  });
});

describe("a straight line", () => {
  test("follows a change by a straight line wholly, and no other", () => {
    const n = 25;
    const curve = quiet({ sd: 0.002, lagOne: 0 });
    const { unexplained, residuals } = peakErrors(curve, lineProblem(curve, bow(n, 1), 300), [3, -2]);
    const change = bow(n, 0.5).map((value, k) => value + 7 - 0.25 * k);
    const left = unexplained(Float64Array.from(change));
    for (const [k, value] of bow(n, 0.5).entries()) expect(left[k]).toBeCloseTo(value, 8);
    for (const [k, value] of bow(n, 1).entries()) expect(residuals[k]).toBeCloseTo(value - 3 + 2 * k, 12);
  });

  test("has the weights of a regression: 1/n ± … for the height, (k − middle)/Sxx for the slope", () => {
    const n = 25;
    const curve = quiet({ sd: 0.002, lagOne: 0 });
    const { rows, weights } = peakErrors(curve, lineProblem(curve, bow(n, 1), 300), [0, 0]);
    for (let k = 0; k < n; k++) {
      const slope = (12 * (k - middleOf(n))) / (n * (n * n - 1));
      expect(rows[1]![k]).toBeCloseTo(slope, 9);
      expect(rows[0]![k]).toBeCloseTo(1 / n - slope * middleOf(n), 9);
    }
    expect(weights[1]!.dtg).toEqual({ at: Array.from({ length: n }, (_, k) => 300 + k), w: [...rows[1]!] });
  });
});
