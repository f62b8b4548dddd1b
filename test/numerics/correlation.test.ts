import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fisherInterval } from "../../src/numerics/fisherInterval.ts";
import { linearRegression } from "../../src/numerics/linearRegression.ts";
import type { Missing } from "../../src/numerics/missing.ts";
import { pearson } from "../../src/numerics/pearson.ts";
import { permutationTest } from "../../src/numerics/permutationTest.ts";
import { ranks } from "../../src/numerics/ranks.ts";
import { seededRandom } from "../../src/numerics/seededRandom.ts";
import { spearman } from "../../src/numerics/spearman.ts";
import { studentCdf } from "../../src/numerics/studentCdf.ts";
import { withinGroups } from "../../src/numerics/withinGroups.ts";
import { readReference } from "../readReference.ts";

/** SciPy 1.10.1, statsmodels 0.13.5, and counts over every permutation: test/reference/decisions.py. */
const reference = readReference<{
  correlations: {
    x: number[];
    y: number[];
    pearson: number;
    low: number;
    high: number;
    spearman: number;
    p_pearson: number;
    p_spearman: number;
  }[];
  within: {
    groups: number[];
    x: number[];
    y: number[];
    r: number;
    df: number;
    low: number;
    high: number;
    p: number;
    permutations: number;
  };
  line: {
    x: number[];
    y: number[];
    slope: number[];
    intercept: number[];
    residual_deviation: number;
    r_squared: number;
    at: number[];
    line: number[][];
  };
}>("decisions");
/** R 4.2.2, cor.test: test/reference/decisions.R. */
const { correlation: r } = readReference<{
  correlation: { x: number[]; y: number[]; r: number; low: number; high: number; rho: number; p_rho: number };
}>("decisionsR");
/** NIST/ITL Statistical Reference Datasets, linear regression: certified values. */
const norris = readReference<{
  x: number[];
  y: number[];
  intercept: [number, number];
  slope: [number, number];
  residual_deviation: number;
  r_squared: number;
  df: number;
}>("norris");

function given<T extends object>(result: T | Missing): Exclude<T, Missing> {
  if ("missing" in result) throw new Error(result.missing);
  return result as Exclude<T, Missing>;
}

describe("correlation", () => {
  test.for(reference.correlations)("of $x and $y as SciPy gives it, p as every permutation gives it", (expected) => {
    const { x, y } = expected;
    const line = given(pearson(x, y));
    expect(line).toMatchObject({ n: x.length, groups: 1, df: x.length - 2, exact: true });
    expect(line.r).toBeCloseTo(expected.pearson, 12);
    expect(given(line.interval).low).toBeCloseTo(expected.low, 10);
    expect(given(line.interval).high).toBeCloseTo(expected.high, 10);
    expect(line.p).toBeCloseTo(expected.p_pearson, 12);
    const order = given(spearman(x, y));
    expect(order.r).toBeCloseTo(expected.spearman, 12);
    expect(order.p).toBeCloseTo(expected.p_spearman, 12);
  });

  test("as R gives it", () => {
    const line = given(pearson(r.x, r.y));
    expect(line.r).toBeCloseTo(r.r, 12);
    expect(given(line.interval)).toEqual({ low: expect.closeTo(r.low, 10), high: expect.closeTo(r.high, 10) });
    const order = given(spearman(r.x, r.y));
    expect(order.r).toBeCloseTo(r.rho, 12);
    expect(order.p).toBeCloseTo(r.p_rho, 10);
  });

  test("of ranks has the interval of Bonett and Wright", () => {
    const { x, y } = reference.correlations[0]!;
    const { r: rho, interval } = given(spearman(x, y));
    const { low, high } = given(interval);
    // D. G. Bonett and T. A. Wright, Psychometrika 65:23–28 (2000): variance (1 + ρ²/2)/(n − 3) of artanh ρ.
    const reach = 1.959963984540054 * Math.sqrt((1 + rho ** 2 / 2) / (x.length - 3));
    expect(Math.atanh(high) - Math.atanh(rho)).toBeCloseTo(reach, 12);
    expect(Math.atanh(rho) - Math.atanh(low)).toBeCloseTo(reach, 12);
  });

  test("of ranks with that interval holds the true one in 93.5 to 96.5 of 100 samples of fifteen", () => {
    // Two normal variables with correlation ρ have Spearman's correlation 6/π·arcsin(ρ/2) (M. G. Kendall, Rank Correlation Methods).
    const random = seededRandom("bonett-wright");
    const [normal, samples] = [0.7, 4000];
    const truth = (6 / Math.PI) * Math.asin(normal / 2);
    let held = 0;
    for (let sample = 0; sample < samples; sample++) {
      const x = Array.from({ length: 15 }, () => random.normal());
      const y = x.map((value) => normal * value + Math.sqrt(1 - normal ** 2) * random.normal());
      const { low, high } = given(given(spearman(x, y, { samples: 1 })).interval);
      if (low <= truth && truth <= high) held++;
    }
    expect(held / samples).toBeGreaterThan(0.935);
    expect(held / samples).toBeLessThan(0.965);
  });

  test("does not depend on units, and changes its sign with one of them", () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: -50, max: 50 }), fc.integer({ min: -50, max: 50 })), {
          minLength: 4,
          maxLength: 6,
        }),
        (pairs) => {
          const [x, y] = [pairs.map(([a]) => a), pairs.map(([, b]) => b)];
          for (const correlation of [pearson, spearman]) {
            const plain = correlation(x, y);
            const scaled = correlation(
              x.map((value) => 1e150 * value + 3e150),
              y.map((value) => -1e-150 * value),
            );
            if ("missing" in plain) expect(scaled).toEqual(plain);
            else {
              expect(given(scaled).r).toBeCloseTo(-plain.r, 9);
              expect(given(scaled).p).toBeCloseTo(plain.p, 12);
            }
          }
        },
      ),
      { seed: 5, numRuns: 40 },
    );
  });

  test("of ten pairs and more has a seeded p: the same for a seed, near Student's for normal values", () => {
    const random = seededRandom("pairs");
    const x = Array.from({ length: 30 }, () => random.normal());
    const y = x.map((value) => 0.35 * value + random.normal());
    const found = given(pearson(x, y, { seed: 3 }));
    expect(found).toMatchObject({ exact: false, permutations: 10_000 });
    expect(given(pearson(x, y, { seed: 3 })).p).toBe(found.p);
    expect(given(pearson(x, y, { seed: 4 })).p).not.toBe(found.p);
    const p = 2 * studentCdf(-Math.abs(found.r) * Math.sqrt(28 / (1 - found.r ** 2)), 28);
    expect(Math.abs(found.p - p)).toBeLessThan(4 * Math.sqrt((p * (1 - p)) / 10_000) + 0.005);
  });

  test("on a line has a p but no interval", () => {
    const found = given(pearson([1, 2, 3, 4, 5], [3, 5, 7, 9, 11]));
    expect(found.r).toBeCloseTo(1, 14);
    expect(found.p).toBeCloseTo(2 / 120, 14);
    expect(found.interval).toEqual({ missing: "perfect-correlation" });
  });

  test("of few or equal values is missing", () => {
    expect(pearson([1, 2], [3, 4])).toEqual({ missing: "too-few-values" });
    expect(pearson([], [])).toEqual({ missing: "too-few-values" });
    expect(pearson([0.1, 0.1, 0.1], [3, 4, 5])).toEqual({ missing: "no-scatter" });
    expect(spearman([3, 4, 5], [0.7, 0.7, 0.7])).toEqual({ missing: "no-scatter" });
    expect(given(pearson([1, 2, 3], [3, 5, 4])).interval).toEqual({ missing: "too-few-values" });
  });

  test("of values that do not belong together, or are none, is refused", () => {
    expect(() => pearson([1, 2, 3], [1, 2])).toThrow(new RangeError("Give as many y and groups as x: 2 and 3 for 3"));
    expect(() => pearson([1, 2, 3], [1, Number.NaN, 2])).toThrow(
      new TypeError("Give finite numbers for a correlation: value 2 of 3 is NaN"),
    );
    expect(() => spearman([1, 2, 3], [1, 2, 3], { level: 0 })).toThrow(
      new RangeError("Give a level between 0 and 1, not 0"),
    );
  });
});

describe("correlation within groups", () => {
  const { groups, x, y, ...expected } = reference.within;

  test("is the partial correlation of a regression with a dummy per group, p over every permutation inside them", () => {
    const found = given(pearson(x, y, { groups }));
    expect(found).toMatchObject({ n: 8, groups: 3, df: expected.df, exact: true, permutations: expected.permutations });
    expect(found.r).toBeCloseTo(expected.r, 10);
    expect(given(found.interval)).toEqual({
      low: expect.closeTo(expected.low, 10),
      high: expect.closeTo(expected.high, 10),
    });
    expect(found.p).toBeCloseTo(expected.p, 12);
  });

  test("does not see what the groups themselves do", () => {
    const shifted = y.map((value, i) => value - 100 * groups[i]!);
    for (const correlation of [pearson, spearman]) {
      const [plain, moved] = [given(correlation(x, y, { groups })), given(correlation(x, shifted, { groups }))];
      expect(moved.r).toBeCloseTo(plain.r, 10);
      expect(moved.p).toBeCloseTo(plain.p, 12);
    }
    expect(given(pearson(x, shifted)).r).toBeLessThan(-0.9);
  });

  test("passes over a group of one", () => {
    const found = given(pearson([...x, 99], [...y, -99], { groups: [...groups, 90] }));
    expect(found).toEqual(given(pearson(x, y, { groups })));
  });

  test("of too little, or of nothing that varies inside the groups, is missing", () => {
    expect(pearson([1, 2, 3, 4], [1, 2, 3, 5], { groups: [1, 1, 2, 2] })).toMatchObject({ n: 4, df: 1 });
    expect(pearson([1, 2, 3], [1, 2, 3], { groups: [1, 1, 2] })).toEqual({ missing: "too-few-values" });
    expect(pearson([1, 2, 3], [1, 2, 3], { groups: ["a", "b", "c"] })).toEqual({ missing: "too-few-values" });
    expect(pearson([1, 1, 2, 2], [1, 2, 3, 4], { groups: [1, 1, 2, 2] })).toEqual({ missing: "no-scatter" });
  });

  test("differences keep their order and lose one degree of freedom per group", () => {
    expect(withinGroups([10, 31, 14, 29, 7], ["a", "b", "a", "b", "c"])).toEqual({
      differences: [-2, 1, 2, -1, 0],
      groups: 3,
      df: 2,
    });
    expect(() => withinGroups([1, 2], ["a"])).toThrow(new RangeError("Give one group per value: 1 for 2"));
  });
});

describe("permutation test", () => {
  test("of sampled permutations agrees with all of them", () => {
    const [x, y] = [
      [3, 1, 4, 1, 5, 9, 2, 6],
      [2, 7, 1, 8, 2, 8, 1, 9],
    ];
    const { p } = permutationTest(x, y);
    const sampled = permutationTest(x, y, { exactUpTo: 1, samples: 19_999, seed: 8 });
    expect(sampled).toMatchObject({ exact: false, permutations: 20_000 });
    expect(Math.abs(sampled.p - p)).toBeLessThan(4 * Math.sqrt((p * (1 - p)) / 20_000));
  });

  test("inside groups of sampled permutations agrees with all of them", () => {
    const { x, y, groups, p } = reference.within;
    const differences = [x, y].map((values) => withinGroups(values, groups).differences) as [number[], number[]];
    const sampled = permutationTest(...differences, { groups, exactUpTo: 1, samples: 19_999 });
    expect(Math.abs(sampled.p - p)).toBeLessThan(4 * Math.sqrt((p * (1 - p)) / 20_000));
  });

  test("of nine pairs tries all, of ten it samples", () => {
    const x = [3, 1, 4, 1, 5, 9, 2, 6, 5];
    expect(permutationTest(x, x.toReversed())).toMatchObject({ exact: true, permutations: 362_880 });
    expect(permutationTest([...x, 3], [...x, 3])).toMatchObject({ exact: false, p: 1 / 10_000 });
  });

  test("leaves its input as it was and refuses what does not fit", () => {
    const [x, y] = [Object.freeze([1, 2, 3]) as number[], Object.freeze([3, 1, 2]) as number[]];
    permutationTest(x, y, { exactUpTo: 1 });
    expect(y).toEqual([3, 1, 2]);
    expect(() => permutationTest([1, 2], [1])).toThrow(new RangeError("Give as many y and groups as x: 1 and 2 for 2"));
    expect(() => permutationTest([1, 2], [1, 2], { samples: 0 })).toThrow(
      new RangeError("Give at least one random permutation, not 0"),
    );
  });
});

test("ranks of equal values are shared", () => {
  expect(ranks([7, 3, 7, 1, 7])).toEqual([4, 2, 4, 1, 4]);
  expect(ranks([])).toEqual([]);
});

test("Fisher's interval needs more than three pairs, and refuses what is no correlation", () => {
  expect(fisherInterval(0.5, { n: 3 })).toEqual({ missing: "too-few-values" });
  expect(fisherInterval(-1, { n: 30 })).toEqual({ missing: "perfect-correlation" });
  expect(() => fisherInterval(1.1, { n: 30 })).toThrow(new RangeError("Give a correlation between -1 and 1, not 1.1"));
  expect(() => fisherInterval(0.1, { n: 30, level: 1 })).toThrow(RangeError);
  expect(() => fisherInterval(0.1, { n: 30, inflation: 0 })).toThrow(
    new RangeError("Give a positive inflation, not 0"),
  );
});

describe("straight line", () => {
  const digits = (value: number, certified: number) => -Math.log10(Math.abs(value / certified - 1) + 1e-16);

  test("through NIST StRD Norris to ten digits and more of the certified values", () => {
    const line = given(linearRegression(norris.x, norris.y));
    expect(line.df).toBe(norris.df);
    expect(digits(line.slope.value, norris.slope[0])).toBeGreaterThan(13);
    expect(digits(line.slope.u, norris.slope[1])).toBeGreaterThan(11);
    expect(digits(line.intercept.value, norris.intercept[0])).toBeGreaterThan(10);
    expect(digits(line.intercept.u, norris.intercept[1])).toBeGreaterThan(11);
    expect(digits(line.residualDeviation, norris.residual_deviation)).toBeGreaterThan(11);
    expect(digits(line.rSquared, norris.r_squared)).toBeGreaterThan(13);
  });

  test("with the intervals that statsmodels gives", () => {
    const { x, y, at, ...expected } = reference.line;
    const line = given(linearRegression(x, y, { at }));
    const close = ([value, u, low, high]: number[]) => ({
      value: expect.closeTo(value!, 11),
      u: expect.closeTo(u!, 11),
      // SciPy's quantile of t is off by up to 6e-10 of its value.
      low: expect.closeTo(low!, 8),
      high: expect.closeTo(high!, 8),
    });
    expect(line.slope).toEqual(close(expected.slope));
    expect(line.intercept).toEqual(close(expected.intercept));
    expect(line.at).toEqual(expected.line.map(close));
    expect(line.residualDeviation).toBeCloseTo(expected.residual_deviation, 12);
    expect(line.rSquared).toBeCloseTo(expected.r_squared, 12);
  });

  test("through equal y is flat, without scatter and without NaN", () => {
    const line = given(linearRegression([1, 2, 3], [5, 5, 5]));
    expect(line).toMatchObject({ residualDeviation: 0, rSquared: 1, slope: { value: 0, u: 0, low: 0, high: 0 } });
  });

  test("has no answer below three points or for equal x", () => {
    expect(linearRegression([1, 2], [1, 2])).toEqual({ missing: "too-few-values" });
    expect(linearRegression([0.1, 0.1, 0.1], [1, 2, 3])).toEqual({ missing: "no-scatter" });
    expect(() => linearRegression([1, 2, 3], [1, 2])).toThrow(new RangeError("Give as many y as x: 2 for 3"));
    expect(() => linearRegression([1, 2, 3], [1, 2, Number.NaN])).toThrow(TypeError);
    expect(() => linearRegression([1, 2, 3], [1, 2, 3], { at: [Number.NaN] })).toThrow(TypeError);
    expect(() => linearRegression([1, 2, 3], [1, 2, 3], { level: 2 })).toThrow(RangeError);
  });
});
