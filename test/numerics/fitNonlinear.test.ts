import { describe, expect, test } from "vitest";
import { fitNonlinear } from "../../src/numerics/fitNonlinear.ts";
import { seededRandom } from "../../src/numerics/seededRandom.ts";
import type { FitDone, FitModel } from "../../src/numerics/types.ts";
import { readReference } from "../readReference.ts";

/** NIST/ITL Statistical Reference Datasets (NIST StRD), nonlinear regression: test/reference/strd.py. */
interface Problem {
  starts: [number[], number[]];
  certified: number[];
  certified_deviations: number[];
  residual_sum_of_squares: number;
  residual_deviation: number;
  df: number;
  x: number[];
  y: number[];
}

type B = readonly [number, number, number, number, number, number, number, number];
const { exp } = Math;
const of = (f: (b: B) => (x: number) => number): FitModel => f as unknown as FitModel;

const gauss = of(([b1, b2, b3, b4, b5, b6, b7, b8]) => (x) => {
  return b1 * exp(-b2 * x) + b3 * exp(-(((x - b4) / b5) ** 2)) + b6 * exp(-(((x - b7) / b8) ** 2));
});
const cubics = of(([b1, b2, b3, b4, b5, b6, b7]) => (x) => {
  return (b1 + b2 * x + b3 * x ** 2 + b4 * x ** 3) / (1 + b5 * x + b6 * x ** 2 + b7 * x ** 3);
});
/** The models as the datasets give them. */
const models: Record<string, FitModel> = {
  Misra1a: of(
    ([b1, b2]) =>
      (x) =>
        b1 * (1 - exp(-b2 * x)),
  ),
  Gauss1: gauss,
  Gauss2: gauss,
  Gauss3: gauss,
  Kirby2: of(
    ([b1, b2, b3, b4, b5]) =>
      (x) =>
        (b1 + b2 * x + b3 * x ** 2) / (1 + b4 * x + b5 * x ** 2),
  ),
  Hahn1: cubics,
  Thurber: cubics,
  MGH09: of(
    ([b1, b2, b3, b4]) =>
      (x) =>
        (b1 * (x ** 2 + x * b2)) / (x ** 2 + x * b3 + b4),
  ),
  Eckerle4: of(
    ([b1, b2, b3]) =>
      (x) =>
        (b1 / b2) * exp(-0.5 * ((x - b3) / b2) ** 2),
  ),
};

/** Significant digits that agree. */
const digits = (value: number, expected: number) => -Math.log10(Math.abs(value / expected - 1) + 1e-16);
const worst = (values: number[], expected: number[]) => Math.min(...values.map((v, i) => digits(v, expected[i]!)));

describe("NIST StRD", () => {
  const cases = Object.keys(models).flatMap((name) => [0, 1].map((start) => [name, start] as const));

  // Both starting points of all nine converge, the first of MGH09 after some 190 steps.
  test.for(cases)("%s from starting point %d: parameters to 9, standard errors to 8 digits", ([name, start]) => {
    const problem = readReference<Problem>(`strd/${name}`);
    const fit = fitNonlinear(models[name]!, problem, { start: problem.starts[start as 0 | 1] });
    expect(fit).toMatchObject({ converged: true, df: problem.df });
    const { parameters, standardErrors, sumOfSquares, residualDeviation } = fit as FitDone;
    expect(worst(parameters, problem.certified)).toBeGreaterThan(9);
    expect(worst(standardErrors, problem.certified_deviations)).toBeGreaterThan(8);
    expect(digits(sumOfSquares, problem.residual_sum_of_squares)).toBeGreaterThan(9);
    expect(digits(residualDeviation, problem.residual_deviation)).toBeGreaterThan(9);
  });

  test("MGH09 from afar, stopped too early, says so", () => {
    const problem = readReference<Problem>("strd/MGH09");
    const fit = fitNonlinear(models.MGH09!, problem, { start: problem.starts[0], iterations: 20 });
    expect(fit).toMatchObject({ converged: false, reason: "iteration-limit", iterations: 20 });
    expect((fit as { message: string }).message).toMatch(
      /^After 20 steps the minimum is still [\d.e+-]+ standard errors/,
    );
    expect(fit).not.toHaveProperty("standardErrors");
  });

  test("Eckerle4 started where its peak has no effect on any value is not identifiable, not fitted", () => {
    const problem = readReference<Problem>("strd/Eckerle4");
    const fit = fitNonlinear(models.Eckerle4!, problem, { start: [1, 1, 5000] });
    expect(fit).toMatchObject({ converged: false, reason: "not-identifiable", parameters: [1, 1, 5000] });
    expect((fit as { message: string }).message).toBe(
      "The data do not determine parameters 1, 2, 3 (condition Infinity).",
    );
  });
});

describe("a fit", () => {
  const line: FitModel =
    ([a = 0, b = 0]) =>
    (x) =>
      a + b * x;
  const x = [0, 1, 2, 3, 4, 5, 6, 7];

  test("of a line equals linear regression in closed form", () => {
    const y = [1.1, 2.9, 5.2, 6.8, 9.1, 11.2, 12.7, 15.1];
    const fit = fitNonlinear(line, { x, y }, { start: [0, 0] }) as FitDone;
    const n = x.length;
    const centre = 3.5;
    const spread = x.reduce((sum, value) => sum + (value - centre) ** 2, 0);
    const slope = x.reduce((sum, value, i) => sum + (value - centre) * y[i]!, 0) / spread;
    const middle = y.reduce((sum, value) => sum + value, 0) / n;
    const squares = x.reduce((sum, value, i) => sum + (y[i]! - middle - slope * (value - centre)) ** 2, 0);
    expect(fit.parameters[1]).toBeCloseTo(slope, 11);
    expect(fit.parameters[0]).toBeCloseTo(middle - slope * centre, 11);
    const variance = squares / (n - 2);
    expect(fit.standardErrors[1]).toBeCloseTo(Math.sqrt(variance / spread), 10);
    expect(fit.covariance[0]![1]).toBeCloseTo((-centre * variance) / spread, 10);
  });

  test("of exact values ends at them, with errors of zero", () => {
    const y = x.map((value) => 3 * exp(-0.7 * value));
    const fit = fitNonlinear(
      ([a = 0, k = 0]) =>
        (at) =>
          a * exp(-k * at),
      { x, y },
      { start: [1, 0.1] },
    ) as FitDone;
    expect(fit.converged).toBe(true);
    expect(worst(fit.parameters, [3, 0.7])).toBeGreaterThan(12);
    expect(Math.max(...fit.standardErrors)).toBeLessThan(1e-12);
  });

  test("finds a parameter that is zero", () => {
    const y = x.map((value) => 2 + (value % 2 === 0 ? 0.1 : -0.1) * (value < 4 ? 1 : -1));
    const fit = fitNonlinear(line, { x, y }, { start: [1, 1] }) as FitDone;
    expect(fit.converged).toBe(true);
    const spread = 42;
    expect(fit.parameters[1]).toBeCloseTo(x.reduce((sum, value, i) => sum + (value - 3.5) * y[i]!, 0) / spread, 11);
  });

  test("of two parameters that only act as a sum is refused with their names", () => {
    const y = x.map((value, i) => 2 * value + [0.1, -0.1, 0.05, 0, -0.08, 0.02, 0.03, -0.02][i]!);
    const both: FitModel =
      ([a = 0, b = 0, c = 0]) =>
      (at) =>
        (a + b) * at + c;
    const fit = fitNonlinear(both, { x, y }, { start: [1, 0.5, 0] });
    expect(fit).toMatchObject({ converged: false, reason: "not-identifiable" });
    expect((fit as { message: string }).message).toMatch(/^The data do not determine parameters 1, 2 \(condition /);
  });

  test("of a parameter without any effect is refused with its name", () => {
    const y = x.map((value) => 1 + 2 * value + (value % 3) * 0.1);
    const fit = fitNonlinear(
      ([a = 0, b = 0, c = 0]) =>
        (at) =>
          a + b * at + 0 * c,
      { x, y },
      { start: [0, 0, 1] },
    );
    expect(fit).toMatchObject({ converged: false, reason: "not-identifiable" });
    expect((fit as { message: string }).message).toBe("The data do not determine parameter 3 (condition Infinity).");
  });

  test("does not go where the model is not finite", () => {
    const root: FitModel =
      ([a = 0, b = 0]) =>
      (at) =>
        b * Math.sqrt(at - a);
    const y = x.map((value, i) => 2 * Math.sqrt(value + 0.5) + (i % 2 === 0 ? 0.01 : -0.01));
    const fit = fitNonlinear(root, { x, y }, { start: [-20, 1] }) as FitDone;
    expect(fit.converged).toBe(true);
    expect(fit.parameters[0]).toBeCloseTo(-0.5, 1);
    expect(fitNonlinear(root, { x, y }, { start: [3, 1] })).toMatchObject({
      converged: false,
      reason: "model-not-finite",
      message: "The model has no finite value or slope at the start: start elsewhere.",
    });
  });

  test("whose least squares stand on a kink is refused: there is no slope to tell errors from", () => {
    const y = x.map((_, i) => -1 + (i % 2 === 0 ? 0.1 : -0.1));
    const fit = fitNonlinear(
      ([a = 0]) =>
        () =>
          Math.abs(a),
      { x, y },
      { start: [0.7] },
    );
    expect(fit).toMatchObject({ converged: false, reason: "no-descent" });
  });

  test("leaves start and data as they were", () => {
    const data = Object.freeze({ x: Object.freeze([...x]), y: Object.freeze(x.map((value) => value * 2 + 1)) });
    const start = Object.freeze([5, 5]);
    expect(fitNonlinear(line, data, { start }).parameters[0]).toBeCloseTo(1, 10);
  });

  test("has standard errors that the scatter over repeated data confirms", () => {
    const draws = 400;
    const model: FitModel =
      ([a = 0, k = 0]) =>
      (at) =>
        a * exp(-k * at);
    const found: number[][] = [];
    let stated = 0;
    for (let draw = 0; draw < draws; draw++) {
      const random = seededRandom(`fit/${draw}`);
      const y = x.map((value) => 5 * exp(-0.3 * value) + 0.05 * random.normal());
      const fit = fitNonlinear(model, { x, y }, { start: [1, 1] }) as FitDone;
      found.push(fit.parameters);
      stated += fit.standardErrors[1]! ** 2 / draws;
    }
    const rates = found.map((parameters) => parameters[1]!);
    const middle = rates.reduce((sum, value) => sum + value, 0) / draws;
    const variance = rates.reduce((sum, value) => sum + (value - middle) ** 2, 0) / (draws - 1);
    // Four hundred draws: the deviation itself is known to 3.5 %.
    expect(Math.sqrt(variance / stated)).toBeGreaterThan(0.9);
    expect(Math.sqrt(variance / stated)).toBeLessThan(1.1);
  });

  test.for([
    [{ x: [1, 2], y: [1] }, [1], "Give a fit as many y as x, not 1 and 2"],
    [{ x: [1, 2], y: [1, 2] }, [1, 2], "Give a fit of 2 parameters at least 3 values, not 2"],
    [{ x: [], y: [] }, [1], "Give at least 1 value for the x of a fit, not 0"],
  ] as const)("of %j with %j is refused", ([data, start, message]) => {
    expect(() => fitNonlinear(line, data, { start })).toThrow(new RangeError(message));
  });

  test("of what is not finite is refused", () => {
    const y = [1, Number.NaN, 3];
    expect(() => fitNonlinear(line, { x: [1, 2, 3], y }, { start: [0, 0] })).toThrow(
      new TypeError("Give finite numbers for the y of a fit: value 2 of 3 is NaN"),
    );
    expect(() => fitNonlinear(line, { x: [1, 2, 3], y: [1, 2, 3] }, { start: [0, 0], typical: [1, 0] })).toThrow(
      new RangeError("Give a fit one positive typical size per parameter, not 1, 0"),
    );
  });
});
