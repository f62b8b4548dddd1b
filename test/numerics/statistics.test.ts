import { describe, expect, test } from "vitest";
import { effectiveDegrees } from "../../src/numerics/effectiveDegrees.ts";
import { mean } from "../../src/numerics/mean.ts";
import { pooledDeviation } from "../../src/numerics/pooledDeviation.ts";
import { standardDeviation } from "../../src/numerics/standardDeviation.ts";
import { readReference } from "../readReference.ts";

interface Problem {
  groups: number[][];
  between_mean_square: number;
  within_df: number;
  residual_deviation: number;
}
/** NIST/ITL Statistical Reference Datasets, one-way analysis of variance: certified values. */
const { problems } = readReference<{ problems: Record<string, Problem> }>("nistStrd");
/** SciPy 1.10.1, scipy.stats.ttest_ind: test/reference/quantiles.py. */
const { two_groups: two } = readReference<{
  two_groups: { a: number[]; b: number[]; u_a: number; u_b: number; welch_df: number; pooled_deviation: number };
}>("quantiles");

describe("NIST StRD", () => {
  /** Significant digits that agree; limited by the digits of the data themselves, not by the arithmetic. */
  const digits = (value: number, certified: number) => -Math.log10(Math.abs(value / certified - 1) + 1e-16);

  test.for([
    ["SiRstv", 12],
    ["AtmWtAg", 8],
    ["SmLs01", 13],
    ["SmLs04", 8],
  ] as const)("pooled deviation of %s to %d digits of the certified residual deviation", ([name, atLeast]) => {
    const { groups, within_df, residual_deviation } = problems[name]!;
    const pooled = pooledDeviation(groups)!;
    expect(pooled.df).toBe(within_df);
    expect(digits(pooled.deviation, residual_deviation)).toBeGreaterThan(atLeast);
  });

  test.for([
    ["SiRstv", 11],
    ["SmLs01", 13],
  ] as const)("scatter of the group means of %s gives the certified mean square", ([name, atLeast]) => {
    const { groups, between_mean_square } = problems[name]!;
    const square = groups[0]!.length * standardDeviation(groups.map(mean)) ** 2;
    expect(digits(square, between_mean_square)).toBeGreaterThan(atLeast);
  });
});

test("pooled deviation and standard uncertainties of two groups as SciPy's t tests use them", () => {
  const { a, b } = two;
  expect(standardDeviation(a) / Math.sqrt(a.length)).toBeCloseTo(two.u_a, 14);
  expect(pooledDeviation([a, b])!.deviation).toBeCloseTo(two.pooled_deviation, 12);
});

test("effective degrees of freedom as SciPy's Welch test uses them", () => {
  const { a, b, u_a, u_b, welch_df } = two;
  const df = effectiveDegrees([
    { u: u_a, df: a.length - 1 },
    { u: u_b, df: b.length - 1 },
  ]);
  expect(Math.abs(df / welch_df - 1)).toBeLessThan(1e-9);
});

describe("effective degrees of freedom", () => {
  test("of one estimated component are its own", () => {
    expect(effectiveDegrees([{ u: 0.3, df: 2 }])).toBe(2);
  });

  test("grow with a component that is known", () => {
    // JCGM 100:2008, G.2b: ν = u⁴/(u₁⁴/ν₁) with u² = 0.09 + 0.16.
    expect(
      effectiveDegrees([
        { u: 0.3, df: 2 },
        { u: 0.4, df: Number.POSITIVE_INFINITY },
      ]),
    ).toBeCloseTo(0.25 ** 2 / (0.09 ** 2 / 2), 12);
  });

  test("are infinite where everything is known, and not NaN where everything is zero", () => {
    expect(effectiveDegrees([{ u: 1, df: Number.POSITIVE_INFINITY }])).toBe(Number.POSITIVE_INFINITY);
    expect(
      effectiveDegrees([
        { u: 0, df: 2 },
        { u: 0, df: 5 },
      ]),
    ).toBe(2);
  });

  test("do not underflow with tiny components", () => {
    expect(effectiveDegrees([{ u: 1e-200, df: 4 }])).toBe(4);
  });

  test.for([
    [[], "Give at least one component of the uncertainty"],
    [[{ u: -1, df: 2 }], "Give a standard uncertainty of zero or more, not -1"],
    [[{ u: 1, df: 0 }], "Give positive degrees of freedom, not 0"],
  ] as const)("of %j are refused", ([components, message]) => {
    expect(() => effectiveDegrees(components)).toThrow(new RangeError(message));
  });
});

describe("pooled deviation", () => {
  test("leaves out groups of one and is null without any other", () => {
    expect(pooledDeviation([[1, 3], [7], []])).toEqual({ deviation: Math.SQRT2, df: 1 });
    expect(pooledDeviation([[1], [2]])).toBeNull();
  });

  test("relative to the group means does not depend on the unit of a group", () => {
    const groups = [
      [10, 11, 12],
      [3, 3.3],
    ];
    const scaled = [groups[0]!.map((value) => value * 1000), groups[1]!];
    expect(pooledDeviation(groups, { relative: true })!.deviation).toBeCloseTo(
      pooledDeviation(scaled, { relative: true })!.deviation,
      15,
    );
  });

  test("refuses a relative scatter about zero", () => {
    expect(() => pooledDeviation([[-1, 1]], { relative: true })).toThrow(
      new RangeError("A group with the mean zero has no relative scatter"),
    );
  });
});

test("statistics refuse what is not a finite number instead of skipping it", () => {
  expect(() => mean([1, Number.NaN, 2])).toThrow(new TypeError("Give finite numbers for a mean: value 2 of 3 is NaN"));
  expect(() => standardDeviation([1, Number.POSITIVE_INFINITY])).toThrow(TypeError);
  expect(() => mean([])).toThrow(new RangeError("Give at least 1 value for a mean, not 0"));
  expect(() => standardDeviation([4])).toThrow(
    new RangeError("Give at least 2 values for a standard deviation, not 1"),
  );
});

test("statistics leave their input as it was", () => {
  const values = Object.freeze([3, 1, 2]) as number[];
  expect(mean(values)).toBe(2);
  expect(standardDeviation(values)).toBe(1);
});

test("values that are equal have exactly no scatter", () => {
  for (const value of [0.1, 1 / 3, 28.63]) {
    expect(mean([value, value, value])).toBe(value);
    expect(standardDeviation([value, value, value])).toBe(0);
  }
});
