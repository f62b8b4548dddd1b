import { describe, expect, test } from "vitest";
import { incompleteBeta } from "../../src/numerics/incompleteBeta.ts";
import { logGamma } from "../../src/numerics/logGamma.ts";
import { normalQuantile } from "../../src/numerics/normalQuantile.ts";
import { studentQuantile } from "../../src/numerics/studentQuantile.ts";
import { readReference } from "../readReference.ts";

/** mpmath 1.2.1 with 40 digits and SciPy 1.10.1 beside it: test/reference/quantiles.py. */
const reference = readReference<{
  student: { rows: [number, number, number, number][] };
  normal: { rows: [number, number, number][] };
  log_gamma: { rows: [number, number, number][] };
  incomplete_beta: { rows: [number, number, number, number, number][] };
}>("quantiles");

/** Distance relative to the expected value, absolute where that is below one. */
const distance = (value: number, expected: number, floor = 0) =>
  Math.abs(value - expected) / Math.max(Math.abs(expected), floor);

describe("quantile of Student's t", () => {
  test.for(reference.student.rows)("p %d, df %d as mpmath gives it", ([p, df, exact]) => {
    expect(distance(studentQuantile(p, df), exact)).toBeLessThan(1e-11);
  });

  test.for(reference.student.rows)(
    "p %d, df %d as SciPy gives it, whose own error is below 1e-8",
    ([p, df, , scipy]) => {
      expect(distance(studentQuantile(p, df), scipy)).toBeLessThan(1e-8);
    },
  );

  test("is antisymmetric about one half", () => {
    expect(studentQuantile(0.5, 3.3)).toBe(0);
    expect(studentQuantile(0.125, 3.3)).toBe(-studentQuantile(0.875, 3.3));
  });

  test("with infinitely many degrees of freedom is the normal quantile", () => {
    expect(studentQuantile(0.975, Number.POSITIVE_INFINITY)).toBe(normalQuantile(0.975));
  });

  test("falls with growing degrees of freedom across the change of method at 10,000", () => {
    const values = [9_000, 9_999.999, 10_000, 11_000].map((df) => studentQuantile(0.975, df));
    expect(values.toSorted((a, b) => b - a)).toEqual(values);
  });

  test.for([
    [0, 3, "Give a probability between 0 and 1, not 0"],
    [1, 3, "Give a probability between 0 and 1, not 1"],
    [Number.NaN, 3, "Give a probability between 0 and 1, not NaN"],
    [0.975, 0, "Give positive degrees of freedom, not 0"],
    [0.975, Number.NaN, "Give positive degrees of freedom, not NaN"],
  ] as const)("p %d with df %d is refused", ([p, df, message]) => {
    expect(() => studentQuantile(p, df)).toThrow(new RangeError(message));
  });
});

test.for(reference.normal.rows)("normal quantile of %d as mpmath gives it", ([p, exact]) => {
  expect(distance(normalQuantile(p), exact, 1)).toBeLessThan(1e-15 * Math.max(1, Math.abs(exact)));
});

test("normal quantile at the ends and outside", () => {
  expect(normalQuantile(0)).toBe(Number.NEGATIVE_INFINITY);
  expect(normalQuantile(1)).toBe(Number.POSITIVE_INFINITY);
  expect(() => normalQuantile(1.1)).toThrow(new RangeError("Give a probability between 0 and 1, not 1.1"));
});

test.for(reference.log_gamma.rows)("logarithm of the gamma function of %d as mpmath gives it", ([x, exact]) => {
  expect(distance(logGamma(x), exact, 1)).toBeLessThan(1e-14);
});

test.for(reference.incomplete_beta.rows)(
  "incomplete beta function at %d with a %d, b %d as mpmath gives it",
  ([x, a, b, exact]) => {
    const value = incompleteBeta(x, { a, b });
    // Far down, the logarithm of the value (about −370) carries the rounding.
    expect(Math.abs(value - exact)).toBeLessThanOrEqual(1e-12 * exact);
  },
);

test("incomplete beta function outside its range", () => {
  expect(() => incompleteBeta(-0.1, { a: 1, b: 1 })).toThrow(RangeError);
  expect(() => incompleteBeta(0.1, { a: 0, b: 1 })).toThrow(RangeError);
  expect(() => logGamma(0)).toThrow(RangeError);
});
