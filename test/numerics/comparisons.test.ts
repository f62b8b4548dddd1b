import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { equivalence } from "../../src/numerics/equivalence.ts";
import { type Estimate, fieller } from "../../src/numerics/fieller.ts";
import { holm } from "../../src/numerics/holm.ts";
import { logRatio } from "../../src/numerics/logRatio.ts";
import type { Missing } from "../../src/numerics/missing.ts";
import { studentTest } from "../../src/numerics/studentTest.ts";
import { welch } from "../../src/numerics/welch.ts";
import { readReference } from "../readReference.ts";

interface WelchCase {
  a: number[];
  b: number[];
  t: number;
  p: number;
  low: number;
  high: number;
}
/** SciPy 1.10.1 and statsmodels 0.13.5: test/reference/decisions.py. */
const reference = readReference<{
  welch: (WelchCase & { p_less: number })[];
  holm: { rows: [number[], number[]][] };
  tost: {
    estimate: number;
    se: number;
    df: number;
    margin: number;
    p: number;
    p_outside: number;
    low: number;
    high: number;
  }[];
  fieller: { numerator: Estimate; denominator: Estimate; covariance: number; df: number; low: number; high: number }[];
}>("decisions");
/** R 4.2.2, t.test and p.adjust: test/reference/decisions.R. */
const r = readReference<{ welch: WelchCase & { df: number }; holm: { p: number[]; adjusted: number[] }[] }>(
  "decisionsR",
);

function given<T extends object>(result: T | Missing): Exclude<T, Missing> {
  if ("missing" in result) throw new Error(result.missing);
  return result as Exclude<T, Missing>;
}

describe("Welch's test", () => {
  test.for(reference.welch)("of $a and $b as SciPy and statsmodels give it", ({ a, b, t, p, p_less, low, high }) => {
    const found = given(welch(a, b));
    expect(found.t).toBeCloseTo(t, 11);
    expect(found.p).toBeCloseTo(p, 11);
    expect(found.low).toBeCloseTo(low, 9);
    expect(found.high).toBeCloseTo(high, 9);
    expect(given(welch(a, b, { alternative: "less" })).p).toBeCloseTo(p_less, 11);
    expect(given(welch(a, b, { alternative: "greater" })).p).toBeCloseTo(1 - p_less, 11);
  });

  test("as R gives it", () => {
    const { a, b, ...expected } = r.welch;
    const { t, df, p, low, high } = given(welch(a, b));
    expect({ t, df, p, low, high }).toEqual(
      Object.fromEntries(Object.entries(expected).map(([name, value]) => [name, expect.closeTo(value, 12)])),
    );
  });

  test("has no basis in a group of two unless it is asked for, and never in a group of one", () => {
    expect(welch([1, 2, 3], [4, 5])).toEqual({ missing: "too-few-values" });
    expect(given(welch([1, 2, 3], [4, 5], { atLeast: 2 })).difference).toBe(-2.5);
    expect(welch([1, 2, 3], [4], { atLeast: 2 })).toEqual({ missing: "too-few-values" });
    expect(() => welch([1, 2, 3], [4], { atLeast: 1 })).toThrow(
      new RangeError("Welch's test needs at least 2 values a group, not 1"),
    );
  });

  test("has nothing to go by where no value scatters, whatever the rounding of the mean", () => {
    expect(welch([0.1, 0.1, 0.1], [0.7, 0.7, 0.7])).toEqual({ missing: "no-scatter" });
  });

  test("refuses what is not a number", () => {
    expect(() => welch([1, Number.NaN, 3], [4, 5, 6])).toThrow(
      new TypeError("Give finite numbers for Welch's test: value 2 of 3 is NaN"),
    );
  });
});

describe("Student's test of an estimate", () => {
  test("holds its interval against its p value", () => {
    const found = given(studentTest(2.3, { se: 0.9, df: 7, level: 0.9 }));
    // At the end of the 90 % interval, a two-sided test has p = 0.1.
    expect(given(studentTest(2.3, { se: 0.9, df: 7, hypothesis: found.low })).p).toBeCloseTo(0.1, 12);
    expect(given(studentTest(2.3, { se: 0.9, df: 7, hypothesis: found.high, alternative: "less" })).p).toBeCloseTo(
      0.05,
      12,
    );
  });

  test("without a standard error has no answer", () => {
    expect(studentTest(2, { se: 0, df: 7 })).toEqual({ missing: "no-scatter" });
  });

  test.for([
    [Number.NaN, { se: 1, df: 3 }, TypeError, "Give a finite estimate and hypothesis, not NaN"],
    [
      1,
      { se: 1, df: 3, hypothesis: Number.POSITIVE_INFINITY },
      TypeError,
      "Give a finite estimate and hypothesis, not Infinity",
    ],
    [1, { se: -1, df: 3 }, RangeError, "Give a standard error of zero or more, not -1"],
    [1, { se: Number.NaN, df: 3 }, RangeError, "Give a standard error of zero or more, not NaN"],
    [1, { se: 1, df: 0 }, RangeError, "Give positive degrees of freedom, not 0"],
    [1, { se: 1, df: 3, level: 95 }, RangeError, "Give a level between 0 and 1, not 95"],
  ] as const)("of %d with %j is refused", ([estimate, options, kind, message]) => {
    expect(() => studentTest(estimate, options)).toThrow(new kind(message));
  });
});

describe("Holm's adjustment", () => {
  test.for([...reference.holm.rows, ...r.holm.map(({ p, adjusted }) => [p, adjusted] as const)])(
    "of %j as statsmodels or R gives it",
    ([ps, adjusted]) => {
      expect(holm(ps)).toEqual(adjusted.map((p) => expect.closeTo(p, 12)));
    },
  );

  test("never makes a p value smaller, keeps the order and follows a permutation", () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 12 }), (ps) => {
        const adjusted = holm(ps);
        const order = [...ps.keys()].sort((a, b) => ps[a]! - ps[b]!);
        for (const [i, p] of ps.entries()) expect(adjusted[i]).toBeGreaterThanOrEqual(p);
        for (const [rank, i] of order.entries()) {
          if (rank > 0) expect(adjusted[i]).toBeGreaterThanOrEqual(adjusted[order[rank - 1]!]!);
        }
        expect(holm(ps.toReversed())).toEqual(adjusted.toReversed());
      }),
      { seed: 5 },
    );
  });

  test("of an empty family is empty; what is no probability is refused", () => {
    expect(holm([])).toEqual([]);
    expect(() => holm([0.1, 1.1])).toThrow(new RangeError("Give p values between 0 and 1, not 1.1"));
    expect(() => holm([0.1, Number.NaN])).toThrow(
      new TypeError("Give finite numbers for Holm's adjustment: value 2 of 2 is NaN"),
    );
  });
});

describe("two one-sided tests", () => {
  test.for(reference.tost)(
    "of $estimate within ±$margin as statsmodels gives them",
    ({ estimate, se, df, margin, p, p_outside, low, high }) => {
      const found = given(equivalence(estimate, { se, df, margin }));
      expect(found.p).toBeCloseTo(p, 11);
      expect(found.pOutside).toBeCloseTo(p_outside, 11);
      // SciPy's quantile of t is off by up to 6e-10 of its value.
      expect(found.low).toBeCloseTo(low, 8);
      expect(found.high).toBeCloseTo(high, 8);
      expect(found.verdict).toBe(p < 0.05 ? "within" : p_outside < 0.05 ? "outside" : "not shown");
    },
  );

  test("say `within` where the 90 % interval lies inside, `outside` where it lies beyond an end", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -6, max: 6, noNaN: true }),
        fc.double({ min: 0.01, max: 3, noNaN: true }),
        (estimate, se) => {
          const { verdict, low, high } = given(equivalence(estimate, { se, df: 9, margin: 2 }));
          const expected = low >= -2 && high <= 2 ? "within" : high <= -2 || low >= 2 ? "outside" : "not shown";
          expect(verdict).toBe(expected);
        },
      ),
      { seed: 5 },
    );
  });

  test("take a margin with two ends, such as ±10 % of a ratio on its logarithm", () => {
    const margin = { low: Math.log(0.9), high: Math.log(1.1) };
    expect(given(equivalence(0.09, { se: 0.001, df: 9, margin })).verdict).toBe("within");
    expect(given(equivalence(-0.104, { se: 0.001, df: 9, margin })).verdict).toBe("not shown");
    expect(given(equivalence(-0.12, { se: 0.001, df: 9, margin })).verdict).toBe("outside");
  });

  test("without a standard error have no answer", () => {
    expect(equivalence(0, { se: 0, df: 9, margin: 1 })).toEqual({ missing: "no-scatter" });
  });

  test.for([
    [{ se: 1, df: 9, margin: 0 }, "Give a positive margin, not 0"],
    [{ se: 1, df: 9, margin: { low: 1, high: -1 } }, "Give the ends of the margin in rising order, not 1 and -1"],
    [{ se: 1, df: 9, margin: 1, alpha: 0.5 }, "Give a significance between 0 and 0.5, not 0.5"],
    [{ se: -1, df: 9, margin: 1 }, "Give a standard error of zero or more, not -1"],
  ] as const)("with %j are refused", ([options, message]) => {
    expect(() => equivalence(0, options)).toThrow(new RangeError(message));
  });
});

describe("ratio by Fieller", () => {
  test.for(reference.fieller)(
    "of $numerator over $denominator where SciPy's root search ends",
    ({ numerator, denominator, covariance, df, low, high }) => {
      const found = given(fieller(numerator, denominator, { df, covariance }));
      expect(found.ratio).toBe(numerator.value / denominator.value);
      expect(Math.abs(found.low - low)).toBeLessThan(1e-8 * (high - low));
      expect(Math.abs(found.high - high)).toBeLessThan(1e-8 * (high - low));
    },
  );

  test("is unbounded where the denominator may be zero", () => {
    expect(fieller({ value: 3, u: 1 }, { value: 2, u: 1 }, { df: 5 })).toEqual({ missing: "unbounded" });
    expect(fieller({ value: 3, u: 1 }, { value: 0, u: 0 }, { df: 5 })).toEqual({ missing: "unbounded" });
  });

  test("without uncertainty has no interval", () => {
    expect(fieller({ value: 3, u: 0 }, { value: 2, u: 0 }, { df: 5 })).toEqual({ missing: "no-scatter" });
  });

  test("by a denominator that is known is the interval of the numerator, scaled", () => {
    const { low, high } = given(fieller({ value: 3, u: 1 }, { value: -2, u: 0 }, { df: 5 }));
    const plain = given(studentTest(3, { se: 1, df: 5 }));
    expect([low, high]).toEqual([expect.closeTo(plain.high / -2, 12), expect.closeTo(plain.low / -2, 12)]);
  });
});

describe("ratio by logarithms", () => {
  test("meets Fieller's where the uncertainties are small", () => {
    const [numerator, denominator] = [
      { value: 18, u: 0.018 },
      { value: 20, u: 0.01 },
    ];
    const byLogarithm = given(logRatio(numerator, denominator, { df: 12, covariance: 0.00009 }));
    const byFieller = given(fieller(numerator, denominator, { df: 12, covariance: 0.00009 }));
    expect(Math.abs(byLogarithm.low - byFieller.low)).toBeLessThan(0.002 * (byFieller.high - byFieller.low));
    expect(Math.abs(byLogarithm.high - byFieller.high)).toBeLessThan(0.002 * (byFieller.high - byFieller.low));
  });

  test("of relative uncertainties of 3 and 4 % has one of 5 %", () => {
    // JCGM 100:2008, 5.1.6: relative variances of factors add up.
    const found = given(logRatio({ value: 2, u: 0.06 }, { value: 5, u: 0.2 }, { df: Number.POSITIVE_INFINITY }));
    expect(found.u).toBeCloseTo(0.05, 14);
    expect(found.logRatio).toBeCloseTo(Math.log(0.4), 14);
    expect(found.high / 0.4).toBeCloseTo(0.4 / found.low, 12);
  });

  test("of a value that is not positive is missing, as is one without uncertainty", () => {
    expect(logRatio({ value: 0, u: 1 }, { value: 5, u: 1 }, { df: 4 })).toEqual({ missing: "not-positive" });
    expect(logRatio({ value: 3, u: 1 }, { value: -5, u: 1 }, { df: 4 })).toEqual({ missing: "not-positive" });
    expect(logRatio({ value: 3, u: 0 }, { value: 5, u: 0 }, { df: 4 })).toEqual({ missing: "no-scatter" });
  });
});

test.for([
  [{ value: Number.NaN, u: 1 }, { df: 4 }, TypeError, "Give finite values for a ratio, not NaN"],
  [{ value: 1, u: -1 }, { df: 4 }, RangeError, "Give a standard uncertainty of zero or more, not -1"],
  [{ value: 1, u: 1 }, { df: 0 }, RangeError, "Give positive degrees of freedom, not 0"],
  [{ value: 1, u: 1 }, { df: 4, level: 1 }, RangeError, "Give a level between 0 and 1, not 1"],
  [{ value: 1, u: 1 }, { df: 4, covariance: Number.NaN }, TypeError, "Give a finite covariance, not NaN"],
  [
    { value: 1, u: 1 },
    { df: 4, covariance: 2.1 },
    RangeError,
    "A covariance of 2.1 is impossible with uncertainties of 1 and 2",
  ],
] as const)("a ratio of %j with %j is refused", ([numerator, options, kind, message]) => {
  for (const ratio of [fieller, logRatio]) {
    expect(() => ratio(numerator, { value: 20, u: 2 }, options)).toThrow(new kind(message));
  }
});
