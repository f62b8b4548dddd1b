import { describe, expect, test } from "vitest";
import { findRoot } from "../../src/numerics/findRoot.ts";
import { integrate } from "../../src/numerics/integrate.ts";
import { noncentralStudentCdf } from "../../src/numerics/noncentralStudentCdf.ts";
import { normalCdf } from "../../src/numerics/normalCdf.ts";
import { normalNodes } from "../../src/numerics/normalNodes.ts";
import { normalQuantile } from "../../src/numerics/normalQuantile.ts";
import { scatterNodes } from "../../src/numerics/scatterNodes.ts";
import { studentCdf } from "../../src/numerics/studentCdf.ts";
import { studentQuantile } from "../../src/numerics/studentQuantile.ts";
import { readReference } from "../readReference.ts";

/** mpmath 1.2.1 with 30 digits, SciPy 1.10.1 beside it: test/reference/decisions.py. */
const reference = readReference<{
  student_cdf: { rows: [number, number, number][] };
  normal_cdf: { rows: [number, number][] };
  noncentral_t: { rows: [number, number, number, number, number][] };
}>("decisions");
/** R 4.2.2, pt: test/reference/decisions.R. */
const { noncentral_t: r } = readReference<{
  noncentral_t: { t: number; df: number; noncentrality: number; p: number }[];
}>("decisionsR");

const relative = (value: number, expected: number) => Math.abs(value - expected) / Math.abs(expected);

test.for(reference.normal_cdf.rows)("normal distribution function at %d as mpmath gives it", ([z, exact]) => {
  expect(relative(normalCdf(z), exact)).toBeLessThan(2e-13);
});

test("the normal distribution function undoes its quantile", () => {
  for (const p of [1e-200, 1e-12, 0.0013, 0.0014, 0.3, 0.975]) {
    expect(relative(normalCdf(normalQuantile(p)), p)).toBeLessThan(1e-12);
  }
});

test("the normal distribution function at the ends, and NaN refused", () => {
  expect([Number.NEGATIVE_INFINITY, -41, 41, Number.POSITIVE_INFINITY].map(normalCdf)).toEqual([0, 0, 1, 1]);
  expect(() => normalCdf(Number.NaN)).toThrow(
    new RangeError("The normal distribution function needs a number, not NaN"),
  );
});

test.for(reference.student_cdf.rows)(
  "Student's distribution function at %d with df %d as mpmath gives it",
  ([t, df, exact]) => {
    expect(relative(studentCdf(t, df), exact)).toBeLessThan(1e-11);
  },
);

describe("Student's distribution function", () => {
  test("undoes its quantile and is normal with infinitely many degrees of freedom", () => {
    for (const df of [1, 3.7, 40]) expect(studentCdf(studentQuantile(0.975, df), df)).toBeCloseTo(0.975, 12);
    expect(studentCdf(1.3, Number.POSITIVE_INFINITY)).toBe(normalCdf(1.3));
  });

  test("gives no NaN for the largest numbers", () => {
    expect(studentCdf(Number.NEGATIVE_INFINITY, 3)).toBe(0);
    expect(studentCdf(Number.POSITIVE_INFINITY, 3)).toBe(1);
    expect(studentCdf(-1e200, 3)).toBe(0);
    expect(studentCdf(0, 3)).toBe(0.5);
  });

  test.for([
    [Number.NaN, 3, "Student's distribution function needs a number, not NaN"],
    [1, 0, "Give positive degrees of freedom, not 0"],
    [1, Number.NaN, "Give positive degrees of freedom, not NaN"],
  ] as const)("at %d with df %d is refused", ([t, df, message]) => {
    expect(() => studentCdf(t, df)).toThrow(new RangeError(message));
  });
});

describe("noncentral t", () => {
  test.for(reference.noncentral_t.rows)(
    "at %d with df %d and noncentrality %d as mpmath gives it",
    ([t, df, noncentrality, exact]) => {
      expect(Math.abs(noncentralStudentCdf(t, { df, noncentrality }) - exact)).toBeLessThan(1e-12);
    },
  );

  test.for(r)(
    "at $t with df $df and noncentrality $noncentrality as R's pt gives it",
    ({ t, df, noncentrality, p }) => {
      expect(Math.abs(noncentralStudentCdf(t, { df, noncentrality }) - p)).toBeLessThan(1e-10);
    },
  );

  test("without noncentrality is Student's, with known scatter the shifted normal", () => {
    expect(noncentralStudentCdf(1.2, { df: 5, noncentrality: 0 })).toBe(studentCdf(1.2, 5));
    const known = noncentralStudentCdf(1.2, { df: Number.POSITIVE_INFINITY, noncentrality: 0.7 });
    expect(known).toBeCloseTo(normalCdf(0.5), 14);
  });

  test("is mirrored with its noncentrality", () => {
    const left = noncentralStudentCdf(-2, { df: 3.3, noncentrality: -1.5 });
    const right = noncentralStudentCdf(2, { df: 3.3, noncentrality: 1.5 });
    expect(left + right).toBeCloseTo(1, 13);
  });

  test("stays a probability at the limits of its input", () => {
    for (const t of [Number.NEGATIVE_INFINITY, -1e9, 0, 65, 1e9, Number.POSITIVE_INFINITY]) {
      for (const df of [1, 1e7]) {
        for (const noncentrality of [-1000, -1e-12, 1000]) {
          const p = noncentralStudentCdf(t, { df, noncentrality });
          expect(p).toBeGreaterThanOrEqual(0);
          expect(p).toBeLessThanOrEqual(1);
        }
      }
    }
  });

  test.for([
    [Number.NaN, 3, 1, "The noncentral distribution function needs a number, not NaN"],
    [1, 0.05, 1, "Give degrees of freedom of 0.1 or more, not 0.05"],
    [1, 3, 1001, "Give a noncentrality between -1000 and 1000, not 1001"],
  ] as const)("at %d with df %d and noncentrality %d is refused", ([t, df, noncentrality, message]) => {
    expect(() => noncentralStudentCdf(t, { df, noncentrality })).toThrow(new RangeError(message));
  });
});

describe("nodes of a mean", () => {
  test.for([0.1, 1, 2.5, 9, 73, 74, 5000, 1e8])("over the scatter with df %d have the moments of chi-square", (df) => {
    const { at, weight } = scatterNodes(df);
    const moment = (power: number) => at.reduce((sum, u, i) => sum + weight[i]! * u ** power, 0);
    // χ² with ν degrees of freedom has the mean ν and the second moment ν(ν + 2).
    expect(moment(0)).toBeCloseTo(1, 13);
    expect(moment(2)).toBeCloseTo(1, 12);
    expect(relative(moment(4), 1 + 2 / df)).toBeLessThan(1e-11);
  });

  test("over a known scatter are one", () => {
    expect(scatterNodes(Number.POSITIVE_INFINITY)).toEqual({ at: Float64Array.of(1), weight: Float64Array.of(1) });
    expect(() => scatterNodes(0)).toThrow(new RangeError("Give degrees of freedom of 0.1 or more, not 0"));
  });

  test.for([0.5, 0.3, 0.01])("over the normal distribution in steps of %d have its moments", (step) => {
    const { at, weight } = normalNodes(step);
    const moment = (power: number) => at.reduce((sum, z, i) => sum + weight[i]! * z ** power, 0);
    expect([0, 1, 2, 4].map(moment).map((value) => Number(value.toFixed(11)) + 0)).toEqual([1, 0, 1, 3]);
  });

  test("in steps outside the limits are refused", () => {
    for (const step of [0, 0.6, Number.NaN]) {
      expect(() => normalNodes(step)).toThrow(new RangeError(`Give a step above 0 and up to 0.5, not ${step}`));
    }
  });
});

describe("integral", () => {
  test.for([
    ["of a polynomial", (x: number) => 3 * x * x, 1, 4, 63],
    ["with corners at both ends", (x: number) => Math.sqrt(x * (2 - x)), 0, 2, Math.PI / 2],
    ["with a logarithm at one end", (x: number) => Math.log(x), 0, 1, -1],
    ["of a narrow bell", (x: number) => Math.exp(-0.5 * (x / 0.05) ** 2), -0.5, 0.5, 0.05 * Math.sqrt(2 * Math.PI)],
    ["over nothing", (x: number) => x, 2, 2, 0],
  ] as const)("%s as its closed form", ([, f, from, to, exact]) => {
    expect(integrate(f, { from, to })).toBeCloseTo(exact, 12);
  });

  test("with ends in the wrong order or without an end is refused", () => {
    expect(() => integrate((x) => x, { from: 1, to: 0 })).toThrow(
      new RangeError("Give finite ends in rising order for an integral, not 1 and 0"),
    );
    expect(() => integrate((x) => x, { from: 0, to: Number.POSITIVE_INFINITY })).toThrow(RangeError);
  });
});

describe("root", () => {
  test.for([
    ["of a cube", (x: number) => x ** 3 - 2, 0, 5, Math.cbrt(2)],
    ["of a steep step", (x: number) => Math.tanh(1000 * (x - 0.3)), -10, 40, 0.3],
    ["at an end", (x: number) => x, 0, 5, 0],
    ["of a function that is flat at one end", (x: number) => Math.expm1(x) * (x > 0 ? 1 : 1e-9), -20, 3, 0],
  ] as const)("%s", ([, f, low, high, exact]) => {
    expect(findRoot(f, { low, high })).toBeCloseTo(exact, 11);
  });

  test("of a function without a change of sign is refused", () => {
    expect(() => findRoot((x) => x * x + 1, { low: -1, high: 2 })).toThrow(
      new RangeError("The function does not change sign between -1 (2) and 2 (5)"),
    );
    expect(() => findRoot(() => Number.NaN, { low: -1, high: 2 })).toThrow(RangeError);
  });
});
