import { describe, expect, test } from "vitest";
import { dunnettQuantile } from "../../src/numerics/dunnettQuantile.ts";
import { normalCdf } from "../../src/numerics/normalCdf.ts";
import { normalQuantile } from "../../src/numerics/normalQuantile.ts";
import { powerOfDifference } from "../../src/numerics/powerOfDifference.ts";
import { powerOfEquivalence } from "../../src/numerics/powerOfEquivalence.ts";
import { replicatesFor } from "../../src/numerics/replicatesFor.ts";
import { smallestMargin } from "../../src/numerics/smallestMargin.ts";
import { readReference } from "../readReference.ts";

/** statsmodels 0.13.5 (TTestIndPower) and mpmath 1.2.1: test/reference/decisions.py. */
const reference = readReference<{
  power: { rows: [number, number, number, number][] };
  sizes: { rows: [number, number, number][] };
  tost_power: { rows: [number, number, number, number][] };
}>("decisions");
/** R 4.2.2 (power.t.test, strict) and mvtnorm 1.1.3: test/reference/decisions.R. */
const r = readReference<{
  power: { n: number; difference: number; power: number }[];
  replicates: { difference: number; power: number; n: number }[];
  tost_power: { margin: number; shift: number; df: number; power: number }[];
}>("decisionsR");

describe("power of a difference", () => {
  test.for(reference.power.rows)(
    "of %d standard deviations with %d specimens as statsmodels gives it",
    ([effect, n, alpha, power]) => {
      const value = powerOfDifference(effect, { se: Math.sqrt(2 / n), df: 2 * (n - 1), alpha });
      expect(Math.abs(value - power)).toBeLessThan(1e-9);
    },
  );

  test.for(r.power)("of $difference with $n specimens as R's power.t.test gives it", ({ n, difference, power }) => {
    expect(Math.abs(powerOfDifference(difference, { se: Math.sqrt(2 / n), df: 2 * (n - 1) }) - power)).toBeLessThan(
      1e-9,
    );
  });

  test("of zero is the significance, of a huge one is one", () => {
    expect(powerOfDifference(0, { se: 1, df: 4, alpha: 0.03 })).toBeCloseTo(0.03, 12);
    expect(powerOfDifference(-1e9, { se: 1, df: 1 })).toBe(1);
  });

  test("falls where a family raises the critical value", () => {
    const one = powerOfDifference(2, { se: 0.6, df: 12 });
    const critical = dunnettQuantile(0.05, { lambda: [0.7, 0.7, 0.7], df: 12 });
    expect(powerOfDifference(2, { se: 0.6, df: 12, critical })).toBeLessThan(one - 0.1);
  });

  test.for([
    [Number.NaN, { se: 1, df: 4 }, "Give a finite difference, not NaN"],
    [1, { se: 0, df: 4 }, "Give a positive standard error, not 0"],
    [1, { se: 1, df: 0 }, "Give degrees of freedom of 1 or more, not 0"],
    [1, { se: 1, df: 4, alpha: 1 }, "Give a significance between 0 and 1, not 1"],
    [1, { se: 1, df: 4, critical: 0 }, "Give a positive critical value, not 0"],
    [
      1e6,
      { se: 1, df: 1, alpha: 1e-6 },
      "A difference of 1000000 standard errors against a critical value of 636619.772",
    ],
  ] as const)("of %d with %j is refused", ([difference, options, message]) => {
    expect(() => powerOfDifference(difference, options)).toThrow(RangeError);
    expect(() => powerOfDifference(difference, options)).toThrow(message);
  });
});

describe("power of equivalence", () => {
  test.for(reference.tost_power.rows)(
    "within %d at a true difference of %d, df %d, as mpmath integrates it",
    ([margin, difference, df, exact]) => {
      expect(Math.abs(powerOfEquivalence(margin, { se: 1, df, difference }) - exact)).toBeLessThan(1e-10);
    },
  );

  test.for(r.tost_power)(
    "within $margin at $shift, df $df, as mvtnorm has it for two noncentral t of one scatter",
    ({ margin, shift, df, power }) => {
      const value = powerOfEquivalence(margin, { se: 1, df, difference: -shift });
      // A randomised rule, good to some 1e-5; the digits are held against mpmath above.
      expect(Math.abs(value - power)).toBeLessThan(5e-5);
    },
  );

  test("with a known standard error is a normal probability, and the limit of growing degrees of freedom", () => {
    const known = powerOfEquivalence(3, { se: 1, df: Number.POSITIVE_INFINITY });
    expect(known).toBeCloseTo(1 - 2 * normalCdf(normalQuantile(0.95) - 3), 14);
    expect(powerOfEquivalence(3, { se: 1, df: 1e7 })).toBeCloseTo(known, 6);
  });

  test("at the margin is below the significance, and near nothing for a margin of nothing", () => {
    for (const df of [1, 5, 60]) {
      expect(powerOfEquivalence(4, { se: 1, df, difference: 4 })).toBeLessThanOrEqual(0.05 + 1e-9);
      expect(powerOfEquivalence(1e-6, { se: 1, df })).toBeLessThan(1e-6);
    }
  });

  test.for([
    [0, { se: 1, df: 4 }, "Give a positive margin, not 0"],
    [1, { se: -1, df: 4 }, "Give a positive standard error, not -1"],
    [1, { se: 1, df: 0.5 }, "Give degrees of freedom of 1 or more, not 0.5"],
    [1, { se: 1, df: 4, alpha: 0.5 }, "Give a significance between 0 and 0.5, not 0.5"],
    [1, { se: 1, df: 4, difference: Number.NaN }, "Give a finite difference, not NaN"],
  ] as const)("within %d with %j is refused", ([margin, options, message]) => {
    expect(() => powerOfEquivalence(margin, options)).toThrow(new RangeError(message));
  });
});

describe("smallest margin", () => {
  test.for([1, 4, 10, 300, Number.POSITIVE_INFINITY])("with df %d has the power that was asked for", (df) => {
    const margin = smallestMargin(0.7, { df, power: 0.8 });
    expect(powerOfEquivalence(margin, { se: 0.7, df })).toBeCloseTo(0.8, 8);
  });

  test("without a standard error or with an impossible power is refused", () => {
    expect(() => smallestMargin(0, { df: 4 })).toThrow(new RangeError("Give a positive standard error, not 0"));
    expect(() => smallestMargin(1, { df: 4, power: 1 })).toThrow(new RangeError("Give a power between 0 and 1, not 1"));
  });
});

describe("replicates", () => {
  test.for(reference.sizes.rows)(
    "for %d standard deviations with power %d as statsmodels gives them",
    ([difference, power, n]) => {
      expect(replicatesFor({ difference }, { deviation: 1, power })).toMatchObject({ n });
    },
  );

  test.for(r.replicates)(
    "for $difference standard deviations with power $power as R's power.t.test gives them",
    ({ difference, power, n }) => {
      expect(replicatesFor({ difference }, { deviation: 1, power })).toMatchObject({ n });
    },
  );

  test("for a margin are the fewest with enough power", () => {
    const plan = replicatesFor({ margin: 1.5 }, { deviation: 1, power: 0.9 });
    if ("missing" in plan) throw new Error("attainable");
    const powerWith = (n: number) => powerOfEquivalence(1.5, { se: Math.sqrt(2 / n), df: 2 * (n - 1) });
    expect(plan.power).toBe(powerWith(plan.n));
    expect(powerWith(plan.n)).toBeGreaterThanOrEqual(0.9);
    expect(powerWith(plan.n - 1)).toBeLessThan(0.9);
  });

  test("fall where more cells tell about the scatter, and rise for a family", () => {
    const nOf = (options: object) => {
      const plan = replicatesFor({ difference: 2 }, { deviation: 1, ...options });
      return "missing" in plan ? Number.NaN : plan.n;
    };
    const critical = (df: number) => dunnettQuantile(0.05, { lambda: new Array<number>(6).fill(Math.SQRT1_2), df });
    expect(nOf({ cells: 12 })).toBeLessThan(nOf({}));
    expect(nOf({ critical })).toBeGreaterThan(nOf({}));
  });

  test("are not attainable against an uncertainty that all specimens share, or beyond the largest number", () => {
    expect(replicatesFor({ difference: 1 }, { deviation: 1, shared: 0.8 })).toEqual({ missing: "not-attainable" });
    expect(replicatesFor({ difference: 0.1 }, { deviation: 1, largest: 10 })).toEqual({ missing: "not-attainable" });
    expect(replicatesFor({ margin: 1, difference: 1.2 }, { deviation: 1 })).toEqual({ missing: "not-attainable" });
  });

  test.for([
    [{ difference: 0 }, { deviation: 1 }, "Give a difference other than zero to be found, not 0"],
    [{ difference: 1 }, { deviation: 0 }, "Give a positive standard deviation, not 0"],
    [{ difference: 1 }, { deviation: 1, cells: 1 }, "Give two cells or more, not 1"],
    [{ difference: 1 }, { deviation: 1, shared: -1 }, "Give a shared uncertainty of zero or more, not -1"],
    [{ difference: 1 }, { deviation: 1, power: 0 }, "Give a power between 0 and 1, not 0"],
    [{ difference: 1 }, { deviation: 1, largest: 1 }, "Give two or more as the largest number of specimens, not 1"],
  ] as const)("for %j with %j are refused", ([aim, options, message]) => {
    expect(() => replicatesFor(aim, options)).toThrow(new RangeError(message));
  });
});
