import { describe, expect, test } from "vitest";
import { dunnett } from "../../src/numerics/dunnett.ts";
import { dunnettLambda } from "../../src/numerics/dunnettLambda.ts";
import { dunnettQuantile } from "../../src/numerics/dunnettQuantile.ts";
import { dunnettTail } from "../../src/numerics/dunnettTail.ts";
import { mean } from "../../src/numerics/mean.ts";
import { normalCdf } from "../../src/numerics/normalCdf.ts";
import { pooledDeviation } from "../../src/numerics/pooledDeviation.ts";
import { productCorrelation } from "../../src/numerics/productCorrelation.ts";
import { studentCdf } from "../../src/numerics/studentCdf.ts";
import { studentQuantile } from "../../src/numerics/studentQuantile.ts";
import { readReference } from "../readReference.ts";

type TableRow = [rho: number, comparisons: number, df: number, critical: number, alpha: number];
/**
 * C. W. Dunnett, J Am Stat Assoc 50:1096–1121 (1955), tables 1a and 1b (one-sided), 2a and 2b (two-sided), as SciPy 1.17.1
 * quotes them in its tests, with four sets of data and p values of R's multcomp: test/reference/dunnettTable.py.
 */
const table = readReference<{
  one_sided: TableRow[];
  two_sided: TableRow[];
  examples: {
    samples: number[][];
    control: number[];
    statistic: number[];
    scipy_p: number[];
    multcomp_two_sided: number[];
    multcomp_greater: number[];
    multcomp_less: number[];
  }[];
}>("dunnettTable");
/** Nested Gauss–Legendre rules with SciPy 1.10.1's distributions: test/reference/decisions.py. */
const { dunnett_tail: tails } = readReference<{
  dunnett_tail: { rows: [number[], number | null, number, number, number][] };
}>("decisions");
interface Glht {
  t: number[];
  se: number[];
  p: number[];
}
/** R 4.2.2 with mvtnorm 1.1.3 (TVPACK, GenzBretz) and multcomp 1.4.22 (glht): test/reference/decisions.R. */
const r = readReference<{
  dunnett_tvpack: { lambda: number[]; df: number; q: number; two_sided: number; one_sided: number }[];
  dunnett_critical: { k: number; df: number; alpha: number; two_sided: number; one_sided: number }[];
  dunnett_many: { k: number; df: number; q: number; two_sided: number; error: number }[];
  dunnett_recovery: {
    groups: Record<string, number[]>;
    df: number;
    two_sided: Glht;
    less: Glht;
    greater: Glht;
    estimate: number[];
    low: number[];
    high: number[];
    critical: number;
  };
}>("decisionsR");

const equal = (comparisons: number) => new Array<number>(comparisons).fill(Math.SQRT1_2);

/** t of each group against the reference from the deviation pooled over all, and what else the test needs. */
function compared(reference: number[], samples: number[][]) {
  const { deviation, df } = pooledDeviation([reference, ...samples])!;
  const statistics = samples.map(
    (sample) => (mean(sample) - mean(reference)) / (deviation * Math.sqrt(1 / sample.length + 1 / reference.length)),
  );
  const sizes = samples.map((sample) => sample.length);
  return { statistics, df, lambda: dunnettLambda(sizes, reference.length) };
}

describe("published tables", () => {
  test.for(table.one_sided)(
    "ρ %d, %d comparisons, df %d: %d one-sided, to one of the last digit printed",
    ([rho, k, df, critical, alpha]) => {
      const lambda = new Array<number>(k).fill(Math.sqrt(rho));
      expect(Math.abs(dunnettQuantile(alpha, { lambda, df, sides: "one-sided" }) - critical)).toBeLessThan(0.01);
    },
  );

  // The two-sided tables of 1955 are bounds from above, worked out by an approximation: R's mvtnorm, too, has 2.540 where
  // they have 2.57. They are exact for one comparison; otherwise p must be what they say to within SciPy's own tolerance.
  test.for(table.two_sided)("ρ %d, %d comparisons, df %d: %d two-sided", ([rho, k, df, critical, alpha]) => {
    const lambda = new Array<number>(k).fill(Math.sqrt(rho));
    const exact = dunnettQuantile(alpha, { lambda, df });
    expect(exact).toBeLessThan(critical + 0.005);
    expect(exact).toBeGreaterThan(critical * (k === 1 ? 0.998 : 0.97));
    expect(Math.abs(dunnettTail(critical, { lambda, df }) - alpha)).toBeLessThan(0.005);
  });
});

describe("largest of several t", () => {
  test.for(tails.rows)("λ %j, df %d, beyond %d, as SciPy integrates it", ([lambda, df, q, twoSided, oneSided]) => {
    const family = { lambda, df: df ?? Number.POSITIVE_INFINITY };
    expect(Math.abs(dunnettTail(q, family) - twoSided)).toBeLessThan(1e-10);
    expect(Math.abs(dunnettTail(q, { ...family, sides: "one-sided" }) - oneSided)).toBeLessThan(1e-10);
  });

  test.for(r.dunnett_tvpack)(
    "λ $lambda, df $df, beyond $q, as mvtnorm's TVPACK has it",
    ({ lambda, df, q, two_sided, one_sided }) => {
      expect(Math.abs(dunnettTail(q, { lambda, df }) - two_sided)).toBeLessThan(1e-9);
      expect(Math.abs(dunnettTail(q, { lambda, df, sides: "one-sided" }) - one_sided)).toBeLessThan(1e-9);
    },
  );

  test.for(r.dunnett_many)(
    "$k comparisons, df $df, beyond $q, as mvtnorm's GenzBretz has it",
    ({ k, df, q, two_sided, error }) => {
      // The error that mvtnorm states is for 99 %.
      expect(Math.abs(dunnettTail(q, { lambda: equal(k), df }) - two_sided)).toBeLessThan(2 * error);
    },
  );

  test("of one comparison is Student's", () => {
    for (const lambda of [-0.9, 0, 0.7]) {
      expect(dunnettTail(2.1, { lambda: [lambda], df: 7 })).toBeCloseTo(2 * studentCdf(-2.1, 7), 13);
      expect(dunnettTail(-0.4, { lambda: [lambda], df: 7, sides: "one-sided" })).toBeCloseTo(studentCdf(0.4, 7), 13);
    }
  });

  test("of comparisons with nothing in common is a product of normal probabilities", () => {
    const inside = 1 - 2 * normalCdf(-2.2);
    const family = { lambda: [0, 0, 0, 0], df: Number.POSITIVE_INFINITY };
    expect(dunnettTail(2.2, family)).toBeCloseTo(1 - inside ** 4, 14);
  });

  test("of comparisons in blocks of their own is that of comparisons with only the scatter in common", () => {
    const apart = dunnettTail(2.4, { lambda: [0.7, 0.6, 0.2], blocks: ["1 d", "7 d", "28 d"], df: 5 });
    expect(apart).toBeCloseTo(dunnettTail(2.4, { lambda: [0, 0, 0], df: 5 }), 13);
    const pairs = dunnettTail(2.4, {
      lambda: [0.7, 0.7, 0.7, 0.7],
      blocks: ["a", "b", "a", "b"],
      df: Number.POSITIVE_INFINITY,
    });
    const one = dunnettTail(2.4, { lambda: [0.7, 0.7], df: Number.POSITIVE_INFINITY });
    expect(pairs).toBeCloseTo(1 - (1 - one) ** 2, 13);
  });

  test("lies between that of one comparison and as many times that", () => {
    const one = dunnettTail(3, { lambda: equal(1), df: 9 });
    const five = dunnettTail(3, { lambda: equal(5), df: 9 });
    expect(five).toBeGreaterThan(one);
    expect(five).toBeLessThan(5 * one);
  });

  test("does not depend on the order of the comparisons, nor on the sign that all λ have", () => {
    const p = dunnettTail(2.4, { lambda: [0.3, 0.6, 0.9], df: 5 });
    expect(dunnettTail(2.4, { lambda: [0.9, 0.3, 0.6], df: 5 })).toBeCloseTo(p, 14);
    expect(dunnettTail(2.4, { lambda: [-0.3, -0.6, -0.9], df: 5 })).toBeCloseTo(p, 14);
  });

  test("keeps the digits of a small probability", () => {
    // Nothing in common: 1 − (1 − p)² = 2p − p², which a difference from one would lose.
    const p = 2 * normalCdf(-12);
    const both = dunnettTail(12, { lambda: [0, 0], df: Number.POSITIVE_INFINITY });
    expect(Math.abs(both / (2 * p) - 1)).toBeLessThan(1e-12);
  });

  test("ends at one and at zero", () => {
    expect(dunnettTail(0, { lambda: equal(3), df: 4 })).toBeCloseTo(1, 14);
    expect(dunnettTail(Number.POSITIVE_INFINITY, { lambda: equal(3), df: 4 })).toBe(0);
    expect(dunnettTail(Number.NEGATIVE_INFINITY, { lambda: equal(3), df: 4, sides: "one-sided" })).toBe(1);
    expect(dunnettTail(-40, { lambda: equal(3), df: 400, sides: "one-sided" })).toBeCloseTo(1, 14);
  });

  test.for([
    [-1, { lambda: [0.5], df: 4 }, "Give a critical value of zero or more, not -1"],
    [Number.NaN, { lambda: [0.5], df: 4, sides: "one-sided" }, "Give a critical value, not NaN"],
    [1, { lambda: [], df: 4 }, "Give at least one comparison"],
    [1, { lambda: [0.5, 1], df: 4 }, "Give λ between -0.9999 and 0.9999, not 1"],
    [1, { lambda: [Number.NaN], df: 4 }, "Give λ between -0.9999 and 0.9999, not NaN"],
    [1, { lambda: [0.5], df: 0 }, "Give degrees of freedom of 0.1 or more, not 0"],
  ] as const)("beyond %d with %j is refused", ([q, family, message]) => {
    expect(() => dunnettTail(q, family)).toThrow(new RangeError(message));
  });
});

describe("critical values", () => {
  test.for(r.dunnett_critical)(
    "$k comparisons, df $df, α $alpha as mvtnorm has them",
    ({ k, df, alpha, two_sided, one_sided }) => {
      expect(Math.abs(dunnettQuantile(alpha, { lambda: equal(k), df }) - two_sided)).toBeLessThan(1e-7);
      expect(Math.abs(dunnettQuantile(alpha, { lambda: equal(k), df, sides: "one-sided" }) - one_sided)).toBeLessThan(
        1e-7,
      );
    },
  );

  test("of one comparison are Student's", () => {
    expect(dunnettQuantile(0.05, { lambda: [0.3], df: 7 })).toBe(studentQuantile(0.975, 7));
  });

  test("have the tail that was asked for, far out and near the middle", () => {
    for (const alpha of [1e-9, 0.05, 0.5]) {
      for (const sides of ["two-sided", "one-sided"] as const) {
        const family = { lambda: [0.2, 0.9, 0.5], df: 3.5, sides };
        expect(Math.abs(dunnettTail(dunnettQuantile(alpha, family), family) / alpha - 1)).toBeLessThan(1e-8);
      }
    }
  });

  test("for an impossible significance or no comparison are refused", () => {
    expect(() => dunnettQuantile(0, { lambda: [0.5], df: 4 })).toThrow(
      new RangeError("Give a significance between 1e-10 and 0.5, not 0"),
    );
    expect(() => dunnettQuantile(0.05, { lambda: [], df: 4 })).toThrow(new RangeError("Give at least one comparison"));
  });
});

describe("comparisons with one reference", () => {
  test.for(table.examples)(
    "of $samples.length samples with $control.length values of the reference as multcomp and SciPy give them",
    (example) => {
      const { statistics, df, lambda } = compared(example.control, example.samples);
      expect(statistics).toEqual(example.statistic.map((t) => expect.closeTo(t, 10)));
      for (const [alternative, expected] of [
        ["two-sided", example.multcomp_two_sided],
        ["greater", example.multcomp_greater],
        ["less", example.multcomp_less],
      ] as const) {
        const ps = dunnett(statistics, { lambda, df, alternative });
        // Both are randomised quasi Monte Carlo to about 1e-4.
        for (const [i, p] of ps.entries()) expect(Math.abs(p - expected[i]!)).toBeLessThan(3e-4);
      }
      const ps = dunnett(statistics, { lambda, df });
      for (const [i, p] of ps.entries()) expect(Math.abs(p - example.scipy_p[i]!)).toBeLessThan(3e-4);
    },
  );

  test("of the recovery times that multcomp ships: p values, critical value and intervals", () => {
    const { groups, df, estimate, low, high, critical, ...sides } = r.dunnett_recovery;
    const [reference, ...samples] = Object.values(groups) as [number[], ...number[][]];
    const found = compared(reference, samples);
    expect(found.df).toBe(df);
    expect(found.statistics).toEqual(sides.two_sided.t.map((t) => expect.closeTo(t, 9)));
    for (const [alternative, { p }] of [
      ["two-sided", sides.two_sided],
      ["less", sides.less],
      ["greater", sides.greater],
    ] as const) {
      for (const [i, value] of dunnett(found.statistics, { ...found, alternative }).entries()) {
        expect(Math.abs(value - p[i]!)).toBeLessThan(3e-5);
      }
    }
    const factor = dunnettQuantile(0.05, found);
    expect(Math.abs(factor - critical)).toBeLessThan(5e-4);
    for (const [i, value] of estimate.entries()) {
      const { se } = sides.two_sided;
      expect(Math.abs(value - factor * se[i]! - low[i]!)).toBeLessThan(5e-4 * se[i]!);
      expect(Math.abs(value + factor * se[i]! - high[i]!)).toBeLessThan(5e-4 * se[i]!);
    }
  });

  test("with another number of λ, or something that is no number, are refused", () => {
    expect(() => dunnett([1, 2], { lambda: [0.5], df: 4 })).toThrow(
      new RangeError("Give one λ per statistic: 1 for 2"),
    );
    expect(() => dunnett([1, Number.NaN], { lambda: [0.5, 0.5], df: 4 })).toThrow(
      new TypeError("Give finite numbers for Dunnett's test: value 2 of 2 is NaN"),
    );
    expect(() => dunnett([], { lambda: [], df: 4 })).toThrow(
      new RangeError("Give at least 1 value for Dunnett's test, not 0"),
    );
  });
});

test("λ of groups that differ in size has the correlation of their differences as product", () => {
  const [a, b] = dunnettLambda([3, 5], 4);
  // Var(mean of the reference) over the root of both variances of difference, in units of σ².
  expect(a! * b!).toBeCloseTo(1 / 4 / Math.sqrt((1 / 3 + 1 / 4) * (1 / 5 + 1 / 4)), 14);
  expect(() => dunnettLambda([3, 0], 4)).toThrow(new RangeError("Give groups of one value or more, not of 0"));
});

describe("correlations as products", () => {
  const matrixOf = (lambda: readonly number[]) => lambda.map((a, i) => lambda.map((b, j) => (i === j ? 1 : a * b)));

  test.for([[[0.3, 0.9, 0.5, 0.7]], [[0.6, -0.4, 0.8]], [[0, 0, 0]], [[0.7, 0.7]], [[0.9]]] as const)(
    "of %j are found again",
    ([lambda]) => {
      const found = productCorrelation(matrixOf(lambda));
      expect(found.gap).toBeLessThan(1e-9);
      expect(matrixOf(found.lambda).flat()).toEqual(
        matrixOf(lambda)
          .flat()
          .map((value) => expect.closeTo(value, 9)),
      );
    },
  );

  test("of differences that share a reference and a calibration fit where one factor carries both", () => {
    // Var Δ = σ²(1/n + 1/n₀) + c²u²; covariance of two: σ²/n₀ + c_A·c_B·u², of product form for equal c.
    const [n, n0, c, u] = [3, 3, 0.5, 0.4];
    const rho = (1 / n0 + (c * u) ** 2) / (1 / n + 1 / n0 + (c * u) ** 2);
    const { lambda, gap } = productCorrelation(matrixOf(new Array<number>(4).fill(Math.sqrt(rho))));
    expect(gap).toBeLessThan(1e-12);
    expect(lambda[0]! ** 2).toBeCloseTo(rho, 12);
    expect(rho).toBeGreaterThan(0.5);
  });

  test("that are none of a single factor show a gap", () => {
    const two = [
      [1, 0.8, 0, 0],
      [0.8, 1, 0, 0],
      [0, 0, 1, 0.8],
      [0, 0, 0.8, 1],
    ];
    expect(productCorrelation(two).gap).toBeGreaterThan(0.3);
  });

  test.for([
    [[], "Give at least one comparison"],
    [[[1, 0.5]], "Give a square matrix: row 1 of 1 has 2 numbers"],
    [
      [
        [1, 0.5],
        [0.4, 1],
      ],
      "Row 1, column 2 of the correlations cannot be 0.5",
    ],
    [
      [
        [1, 1.5],
        [1.5, 1],
      ],
      "Row 1, column 2 of the correlations cannot be 1.5",
    ],
    [[[0.9]], "Row 1, column 1 of the correlations cannot be 0.9"],
    [
      [
        [1, Number.NaN],
        [Number.NaN, 1],
      ],
      "Row 1, column 2 of the correlations cannot be NaN",
    ],
  ] as const)("%j is refused", ([matrix, message]) => {
    expect(() => productCorrelation(matrix)).toThrow(new RangeError(message));
  });
});
