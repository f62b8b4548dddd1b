import { describe, expect, test } from "vitest";
import { cochranTest } from "../../src/numerics/cochranTest.ts";
import { fProbability } from "../../src/numerics/fProbability.ts";
import { fQuantile } from "../../src/numerics/fQuantile.ts";
import { leveneTest } from "../../src/numerics/leveneTest.ts";
import { oneWayAnova } from "../../src/numerics/oneWayAnova.ts";
import { pooledDeviation } from "../../src/numerics/pooledDeviation.ts";
import { seededRandom } from "../../src/numerics/seededRandom.ts";
import { readReference } from "../readReference.ts";

type Row = [number, number, number, number, number];
interface Line {
  between: number;
  within: number;
  f: number;
  p: number;
}

/** mpmath, SciPy 1.10.1, exact fractions and draws: test/reference/varianceTests.py. */
const reference = readReference<{
  f_quantile: { rows: Row[] };
  f_probability: { rows: Row[] };
  anova_of_the_binary_numbers: Record<string, Line>;
  anova: { groups: number[][]; f: number; p: number };
  levene: { centre: "median" | "mean"; logarithms: boolean; f: number; p: number }[];
  cochran: { k: number; n: number; significance: number; scipy: number; drawn: number; fisher?: number }[];
}>("varianceTests");

interface Problem {
  groups: number[][];
  between_df: number;
  between_mean_square: number;
  within_df: number;
  within_mean_square: number;
  f: number;
  residual_deviation: number;
}
/** NIST/ITL Statistical Reference Datasets (NIST StRD), one-way analysis of variance: certified values. */
const { problems } = readReference<{ problems: Record<string, Problem> }>("nistStrd");

/** Significant digits that agree. */
const digits = (value: number, expected: number) => -Math.log10(Math.abs(value / expected - 1) + 1e-16);

/** k groups of n normal values, all of one scatter. */
function alike(seed: string, { k, n }: { k: number; n: number }): number[][] {
  const random = seededRandom(seed);
  return Array.from({ length: k }, () => Array.from({ length: n }, () => random.normal()));
}

describe("F distribution", () => {
  test("quantiles equal mpmath's to eleven digits", () => {
    for (const [p, numerator, denominator, exact] of reference.f_quantile.rows) {
      // 1 − p loses digits of the tail before the function is called: 1e-16/1e-6.
      const atLeast = p > 0.9999 ? 9.5 : 11;
      expect(digits(fQuantile(p, { numerator, denominator }), exact)).toBeGreaterThan(atLeast);
    }
  });

  test("probabilities equal mpmath's to twelve digits, in both tails", () => {
    for (const [f, numerator, denominator, exact] of reference.f_probability.rows) {
      const p = fProbability(f, { numerator, denominator });
      // Below the smallest number there is zero is right.
      if (exact === 0) expect(p).toBe(0);
      else expect(digits(p, exact)).toBeGreaterThan(12);
    }
  });

  test("has the whole probability beyond zero and none beyond infinity", () => {
    expect(fProbability(0, { numerator: 2, denominator: 7 })).toBe(1);
    expect(fProbability(Number.POSITIVE_INFINITY, { numerator: 2, denominator: 7 })).toBe(0);
  });

  test.for([
    [() => fQuantile(1, { numerator: 1, denominator: 2 }), "Give a probability between 0 and 1, not 1"],
    [() => fQuantile(0.5, { numerator: 0, denominator: 2 }), "Give positive, finite degrees of freedom, not 0"],
    [() => fProbability(-1, { numerator: 1, denominator: 2 }), "Give an F value of zero or more, not -1"],
    [() => fProbability(Number.NaN, { numerator: 1, denominator: 2 }), "Give an F value of zero or more, not NaN"],
  ] as const)("refuses what has no meaning: %s", ([call, message]) => {
    expect(call).toThrow(new RangeError(message));
  });
});

describe("analysis of variance", () => {
  // AtmWtAg and SmLs04 hold seven equal leading digits: written in binary their differences keep about nine.
  test.for([
    ["SiRstv", 12],
    ["AtmWtAg", 8],
    ["SmLs01", 14],
    ["SmLs04", 9],
  ] as const)("of NIST StRD %s has %d digits of the certified values", ([name, atLeast]) => {
    const certified = problems[name]!;
    const { between, within, f, residualDeviation } = oneWayAnova(certified.groups);
    expect([between.df, within.df]).toEqual([certified.between_df, certified.within_df]);
    expect(digits(between.meanSquare, certified.between_mean_square)).toBeGreaterThan(atLeast);
    expect(digits(within.meanSquare, certified.within_mean_square)).toBeGreaterThan(atLeast);
    expect(digits(f, certified.f)).toBeGreaterThan(atLeast);
    expect(digits(residualDeviation, certified.residual_deviation)).toBeGreaterThan(atLeast);
  });

  test.for(["SiRstv", "AtmWtAg", "SmLs01", "SmLs04"])(
    "of NIST StRD %s has 14 digits of what the binary numbers give in exact fractions",
    (name) => {
      const { between, within, f, p } = oneWayAnova(problems[name]!.groups);
      const exact = reference.anova_of_the_binary_numbers[name]!;
      expect(digits(between.sumOfSquares, exact.between)).toBeGreaterThan(14);
      expect(digits(within.sumOfSquares, exact.within)).toBeGreaterThan(14);
      expect(digits(f, exact.f)).toBeGreaterThan(14);
      expect(digits(p, exact.p)).toBeGreaterThan(12);
    },
  );

  test("of groups of different size equals scipy.stats.f_oneway", () => {
    const { groups, f, p } = reference.anova;
    const ours = oneWayAnova(groups);
    expect(digits(ours.f, f)).toBeGreaterThan(12);
    expect(digits(ours.p, p)).toBeGreaterThan(11);
    expect(digits(ours.residualDeviation, pooledDeviation(groups)!.deviation)).toBeGreaterThan(14);
  });

  test("has an infinite F where only the groups differ, and none where nothing does", () => {
    const apart = oneWayAnova([
      [1, 1],
      [2, 2],
    ]);
    expect([apart.f, apart.p]).toEqual([Number.POSITIVE_INFINITY, 0]);
    const same = oneWayAnova([
      [3, 3],
      [3, 3],
    ]);
    expect([same.f, same.p]).toEqual([0, 1]);
  });

  test.for([
    [[[1, 2]], "Give at least two groups for an analysis of variance, not 1"],
    [[[1], [2]], "Give at least one group with two values: without one there is no scatter to compare with"],
    [[[1, 2], []], "Give at least 1 value for a group of an analysis of variance, not 0"],
  ] as const)("of %j is refused", ([groups, message]) => {
    expect(() => oneWayAnova(groups)).toThrow(new RangeError(message));
  });
});

describe("Cochran's test", () => {
  /** Groups of n values with these variances. */
  const withVariances = (variances: number[], n: number) =>
    variances.map((variance) => {
      const shape = Array.from({ length: n }, (_, i) => i - (n - 1) / 2);
      const unit = Math.sqrt(shape.reduce((sum, x) => sum + x * x, 0) / (n - 1));
      return shape.map((x) => 10 + (x / unit) * Math.sqrt(variance));
    });

  test("has the critical values of SciPy, of Fisher's exact g, and of two million draws", () => {
    for (const { k, n, significance, scipy, drawn, fisher } of reference.cochran) {
      const { critical } = cochranTest(withVariances(new Array<number>(k).fill(1), n), { significance });
      expect(digits(critical, scipy)).toBeGreaterThan(10);
      expect(Math.abs(critical - drawn)).toBeLessThan(0.0015);
      // One twentieth spread over k groups is exact from one half on and a little too careful below.
      if (fisher !== undefined) expect(Math.abs(critical - fisher)).toBeLessThan(fisher > 0.5 ? 1e-11 : 1e-4);
    }
  });

  test("names the group that scatters most and gives the share of its variance", () => {
    const result = cochranTest(withVariances([1, 2, 9, 1, 2], 3));
    expect(result).toMatchObject({ largest: 2, differs: false });
    expect(result.statistic).toBeCloseTo(9 / 15, 12);
    expect(cochranTest(withVariances([1, 2, 19, 1, 2], 3))).toMatchObject({ largest: 2, differs: true });
  });

  test("gives at its critical value the significance that was asked for", () => {
    const { critical } = cochranTest(withVariances([1, 1, 1, 1], 4), { significance: 0.02 });
    const { p } = cochranTest(withVariances([critical, ...new Array<number>(3).fill((1 - critical) / 3)], 4));
    expect(p).toBeCloseTo(0.02, 10);
  });

  test("of groups without any scatter finds nothing", () => {
    const none = cochranTest([
      [1, 1],
      [2, 2],
    ]);
    expect(none).toMatchObject({ statistic: 0.5, p: 1, differs: false });
  });

  test("says of groups that scatter alike in five of a hundred cases that they do not", () => {
    let found = 0;
    for (let i = 0; i < 2000; i++) if (cochranTest(alike(`cochran/${i}`, { k: 6, n: 3 })).differs) found++;
    // Binomial, two thousand draws: 100 ± 10.
    expect(Math.abs(found - 100)).toBeLessThan(30);
  });

  test.for([
    [[[1, 2]], "Give at least two groups for Cochran's test, not 1"],
    [
      [
        [1, 2],
        [1, 2, 3],
      ],
      "Cochran's test needs groups of one size, not of 2 and 3 values",
    ],
    [[[1], [2]], "Give at least 2 values for a group of Cochran's test, not 1"],
  ] as const)("of %j is refused", ([groups, message]) => {
    expect(() => cochranTest(groups)).toThrow(new RangeError(message));
  });
});

describe("Levene's test", () => {
  const { groups } = reference.anova;

  test.for(reference.levene)("equals scipy.stats.levene: centre $centre, logarithms $logarithms", (expected) => {
    const { centre, logarithms, f, p } = expected;
    const ours = leveneTest(groups, { centre, logarithms })!;
    expect(digits(ours.f, f)).toBeGreaterThan(11);
    expect(digits(ours.p, p)).toBeGreaterThan(11);
    expect(ours.df).toEqual({ numerator: 3, denominator: 12 });
    expect(ours.leftOut).toEqual([]);
  });

  test("on logarithms does not depend on the unit of a group", () => {
    const scaled = groups.map((group, i) => group.map((value) => value * 10 ** i));
    expect(leveneTest(scaled, { logarithms: true })!.f).toBeCloseTo(leveneTest(groups, { logarithms: true })!.f, 10);
  });

  test("leaves out groups of two, whose deviations are equal whatever they are, and names them", () => {
    const more = [groups[0]!, [5, 9], ...groups.slice(1), [4]];
    expect(leveneTest(more)).toEqual({ ...leveneTest(groups), leftOut: [1, 5] });
    expect(leveneTest([[1, 2], [3, 9], groups[0]!])).toBeNull();
  });

  test("with three values a group is far too careful about medians and not careful enough about means", () => {
    const found = { median: 0, mean: 0 };
    for (let i = 0; i < 1000; i++) {
      const sample = alike(`levene/${i}`, { k: 6, n: 3 });
      for (const centre of ["median", "mean"] as const) if (leveneTest(sample, { centre })!.p < 0.05) found[centre]++;
    }
    expect(found.median).toBeLessThan(10);
    expect(found.mean).toBeGreaterThan(80);
  });

  test("of relative scatter refuses a value that is not positive", () => {
    expect(() => leveneTest([[1, -2, 3], groups[0]!], { logarithms: true })).toThrow(
      new RangeError("Relative scatter needs positive values, not -2"),
    );
  });
});
