import { describe, expect, test } from "vitest";
import { jonckheere } from "../../src/numerics/jonckheere.ts";
import { mannKendall } from "../../src/numerics/mannKendall.ts";
import type { Missing } from "../../src/numerics/missing.ts";
import { orderDistribution } from "../../src/numerics/orderDistribution.ts";
import { orderVariance } from "../../src/numerics/orderVariance.ts";
import { theilSen } from "../../src/numerics/theilSen.ts";
import { tiedOrderDistribution } from "../../src/numerics/tiedOrderDistribution.ts";
import { tieSizes } from "../../src/numerics/tieSizes.ts";
import { readReference } from "../readReference.ts";

/** SciPy 1.10.1, and counts over every permutation or deal where it says so: test/reference/decisions.py. */
const reference = readReference<{
  trend_untied: { values: number[]; s: number; tau: number; p: number }[];
  trend_tied: { values: number[]; s: number; tau: number; rising: number; falling: number }[];
  ordered: {
    groups: number[][];
    j: number;
    rising: number;
    falling: number;
    rising_best: number;
    asymptotic: number;
  }[];
  theil_sen: { x: number[]; y: number[]; slope: number; separate: number; joint: number; low: number; high: number }[];
  theil_sen_levels: { x: number[]; left: number; level: number }[];
}>("decisions");
/** R 4.2.2 (cor.test, wilcox.test) and exactRankTests 0.8.35: test/reference/decisions.R. */
const r = readReference<{
  kendall_exact: { values: number[]; p: number; rising: number };
  kendall_normal: { values: number[]; p: number; tau: number }[];
  two_groups: { first: number[]; second: number[]; u: number; rising: number }[];
}>("decisionsR");

function given<T extends object>(result: T | Missing): Exclude<T, Missing> {
  if ("missing" in result) throw new Error(result.missing);
  return result as Exclude<T, Missing>;
}

describe("trend in time", () => {
  test.for(reference.trend_untied)("of $values as SciPy's exact kendalltau gives it", ({ values, s, tau, p }) => {
    const found = given(mannKendall(values));
    expect(found).toMatchObject({ s, exact: true });
    expect(found.tau).toBeCloseTo(tau, 12);
    expect(Math.abs(found.p / p - 1)).toBeLessThan(1e-10);
  });

  test("without ties as R's exact test gives it", () => {
    const { values, p, rising } = r.kendall_exact;
    expect(Math.abs(given(mannKendall(values)).p / p - 1)).toBeLessThan(1e-10);
    expect(given(mannKendall(values, { alternative: "increasing" })).p).toBeCloseTo(rising, 12);
  });

  test.for(reference.trend_tied)(
    "of $values with ties as every permutation gives it",
    ({ values, s, tau, rising, falling }) => {
      const found = given(mannKendall(values));
      expect(found).toMatchObject({ s, exact: true });
      expect(found.tau).toBeCloseTo(tau, 12);
      expect(found.p).toBeCloseTo(Math.min(1, 2 * Math.min(rising, falling)), 12);
      expect(given(mannKendall(values, { alternative: "increasing" })).p).toBeCloseTo(rising, 12);
      expect(given(mannKendall(values, { alternative: "decreasing" })).p).toBeCloseTo(falling, 12);
    },
  );

  test.for(r.kendall_normal)(
    "of many values, with ties, as R's normal distribution with continuity gives it",
    ({ values, p, tau }) => {
      const found = given(mannKendall(values, { exactUpTo: 10 }));
      expect(found.exact).toBe(false);
      expect(found.tau).toBeCloseTo(tau, 12);
      expect(found.p).toBeCloseTo(p, 12);
    },
  );

  test("at four ages cannot reach 5 %, at five it can", () => {
    expect(given(mannKendall([1, 2, 3, 4])).smallestP).toBeCloseTo(2 / 24, 14);
    expect(given(mannKendall([2, 1, 3, 4])).smallestP).toBeCloseTo(2 / 24, 14);
    expect(given(mannKendall([1, 2, 3, 4, 5])).smallestP).toBeCloseTo(2 / 120, 14);
    expect(given(mannKendall([3, 2, 2, 4], { alternative: "decreasing" })).smallestP).toBeCloseTo(2 / 24, 14);
  });

  test("the exact and the normal p are near each other for a hundred values", () => {
    const values = Array.from({ length: 100 }, (_, i) => Math.sin(37 * i) + 0.004 * i);
    const exact = given(mannKendall(values));
    const normal = given(mannKendall(values, { exactUpTo: 0 }));
    expect(exact.exact).toBe(true);
    expect(Math.abs(exact.p - normal.p)).toBeLessThan(2e-3);
  });

  test("has no answer for one value or for equal ones, and refuses NaN", () => {
    expect(mannKendall([3])).toEqual({ missing: "too-few-values" });
    expect(mannKendall([3, 3, 3])).toEqual({ missing: "all-tied" });
    expect(given(mannKendall([3, 4])).p).toBe(1);
    expect(() => mannKendall([1, Number.NaN])).toThrow(
      new TypeError("Give finite numbers for a test of trend: value 2 of 2 is NaN"),
    );
  });
});

describe("order of groups", () => {
  test.for(reference.ordered)("of $groups as every deal gives it", ({ groups, j, rising, falling, rising_best }) => {
    const found = given(jonckheere(groups));
    expect(found).toMatchObject({ j, exact: true });
    expect(found.p).toBeCloseTo(rising, 12);
    expect(found.smallestP).toBeCloseTo(rising_best, 12);
    expect(given(jonckheere(groups, { alternative: "decreasing" })).p).toBeCloseTo(falling, 12);
    expect(given(jonckheere(groups, { alternative: "two-sided" })).p).toBeCloseTo(
      Math.min(1, 2 * Math.min(rising, falling)),
      12,
    );
  });

  test.for(reference.ordered)(
    "of $groups by the normal distribution as SciPy's asymptotic kendalltau gives it",
    ({ groups, asymptotic }) => {
      const found = given(jonckheere(groups, { alternative: "two-sided", exactUpTo: 0 }));
      expect(found.exact).toBe(false);
      expect(found.p).toBeCloseTo(asymptotic, 12);
    },
  );

  test.for(r.two_groups)(
    "of two groups is R's test of Wilcoxon, Mann and Whitney: $first and $second",
    ({ first, second, u, rising }) => {
      const found = given(jonckheere([first, second]));
      expect(found.j).toBe(u);
      expect(found.p).toBeCloseTo(rising, 10);
    },
  );

  test("of groups of one is the trend in time", () => {
    const values = [9, 7.5, 8, 3.1, 2.2, 4, 1];
    const trend = given(mannKendall(values, { alternative: "decreasing" }));
    const order = given(
      jonckheere(
        values.map((value) => [value]),
        { alternative: "decreasing" },
      ),
    );
    expect(order.p).toBeCloseTo(trend.p, 13);
    expect(2 * order.j - 21).toBe(trend.s);
  });

  test("falls back on the normal distribution where ties make counting unfeasible", () => {
    const groups = Array.from({ length: 8 }, (_, group) => Array.from({ length: 6 }, (_, i) => (i * 7 + group) % 5));
    const found = given(jonckheere(groups));
    expect(found.exact).toBe(false);
    expect(found.p).toBeGreaterThan(0);
    expect(found.p).toBeLessThan(1);
  });

  test("passes over an empty group and has no answer without two groups or two values", () => {
    expect(given(jonckheere([[1, 2], [], [3, 4]])).p).toBeCloseTo(1 / 6, 14);
    expect(jonckheere([[1, 2], []])).toEqual({ missing: "too-few-values" });
    expect(jonckheere([[2, 2], [2]])).toEqual({ missing: "all-tied" });
    expect(() => jonckheere([[1], [Number.NaN]])).toThrow(
      new TypeError("Give finite numbers for a test of order: value 1 of 1 is NaN"),
    );
  });
});

describe("distribution of pairs in rising order", () => {
  test.for([[[1, 1, 1, 1, 1]], [[3, 4]], [[2, 1, 3, 2]], [[30, 40, 30]]] as const)(
    "of groups of %j adds up to one, is symmetric and has the known variance",
    ([sizes]) => {
      const distribution = orderDistribution(sizes);
      const last = distribution.length - 1;
      const mean = distribution.reduce((sum, p, i) => sum + p * i, 0);
      const variance = distribution.reduce((sum, p, i) => sum + p * (i - mean) ** 2, 0);
      expect(distribution.reduce((sum, p) => sum + p, 0)).toBeCloseTo(1, 12);
      expect(mean).toBeCloseTo(last / 2, 9);
      expect(Math.abs(variance / orderVariance(sizes, []) - 1)).toBeLessThan(1e-11);
      for (const i of [0, 1, 2]) expect(Math.abs(distribution[i]! / distribution[last - i]! - 1)).toBeLessThan(1e-10);
    },
  );

  test.for([
    [
      [2, 3],
      [1, 2, 2],
    ],
    [
      [3, 3, 2],
      [4, 1, 2, 1],
    ],
    [
      [1, 1, 2],
      [2, 2],
    ],
  ] as const)("of groups of %j with ties %j has the known variance in half pairs", ([sizes, ties]) => {
    const distribution = tiedOrderDistribution(sizes, ties)!;
    const mean = distribution.reduce((sum, p, i) => sum + p * i, 0);
    const variance = distribution.reduce((sum, p, i) => sum + p * (i - mean) ** 2, 0);
    expect(distribution.reduce((sum, p) => sum + p, 0)).toBeCloseTo(1, 12);
    expect(mean).toBeCloseTo((distribution.length - 1) / 2, 12);
    expect(variance).toBeCloseTo(4 * orderVariance(sizes, ties), 12);
  });

  test("of a size that is none is refused, as are ties that do not fit", () => {
    expect(() => orderDistribution([2, 0.5])).toThrow(new RangeError("Give whole group sizes of one or more, not 0.5"));
    expect(() => tiedOrderDistribution([2, 2], [3])).toThrow(
      new RangeError("The groups hold 4 values, the ties add up to 3"),
    );
    expect(tiedOrderDistribution([2, 2], [2, 2], { budget: 10 })).toBeNull();
  });

  test("ties are counted from the smallest value up", () => {
    expect(tieSizes([5, 1, 5, 5, 3, 1])).toEqual([2, 1, 3]);
  });
});

describe("slope of Theil and Sen", () => {
  test.for(reference.theil_sen)(
    "through $x.length points as SciPy's theilslopes gives it",
    ({ x, y, slope, separate, joint }) => {
      const line = given(theilSen(x, y));
      expect(line.slope).toBeCloseTo(slope, 12);
      expect(line.intercept).toBeCloseTo(separate, 12);
      expect(given(theilSen(x, y, { intercept: "joint" })).intercept).toBeCloseTo(joint, 12);
    },
  );

  test("interval for many points as SciPy's, which is from the normal distribution", () => {
    const { x, y, low, high } = reference.theil_sen.find((line) => line.x.length > 100)!;
    const interval = given(given(theilSen(x, y)).interval);
    expect(interval).toEqual({ low: expect.closeTo(low, 12), high: expect.closeTo(high, 12), level: 0.95 });
  });

  // Leaving out all slopes but the middle one keeps no level at all.
  test.for(reference.theil_sen_levels.filter(({ level }) => level > 1e-9))(
    "x $x: leaving out $left slopes at each end keeps the level that every order of errors gives",
    ({ x, left, level }) => {
      // Asked for exactly this level, less a rounding, it must leave out exactly so many.
      const y = x.map((value, i) => value ** 3 + 0.01 * i);
      const slopes = x
        .flatMap((a, i) => x.slice(i + 1).map((b, j) => (a === b ? null : (y[i + 1 + j]! - y[i]!) / (b - a))))
        .filter((slope) => slope !== null)
        .sort((a, b) => a - b);
      const interval = given(given(theilSen(x, y, { level: level - 1e-9 })).interval);
      expect(interval).toEqual({
        low: expect.closeTo(slopes[left]!, 10),
        high: expect.closeTo(slopes.at(-1 - left)!, 10),
        level: expect.closeTo(level, 12),
      });
    },
  );

  test("through four points has no 95 % interval, but one of 91.7 %", () => {
    const [x, y] = [
      [1, 3, 7, 28],
      [8.1, 9.9, 12, 13.1],
    ];
    expect(given(theilSen(x, y)).interval).toEqual({ missing: "not-attainable" });
    expect(given(given(theilSen(x, y, { level: 0.9 })).interval).level).toBeCloseTo(1 - 2 / 24, 12);
  });

  test("has no answer for one point or for equal x", () => {
    expect(theilSen([1], [2])).toEqual({ missing: "too-few-values" });
    expect(theilSen([1, 1, 1], [2, 3, 4])).toEqual({ missing: "all-tied" });
    expect(() => theilSen([1, 2], [2])).toThrow(new RangeError("Give as many y as x: 1 for 2"));
    expect(() => theilSen([1, 2], [2, Number.NaN])).toThrow(TypeError);
    expect(() => theilSen([1, 2], [2, 3], { level: 1 })).toThrow(new RangeError("Give a level between 0 and 1, not 1"));
  });
});
