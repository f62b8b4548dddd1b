import { describe, expect, test } from "vitest";
import { contrasts } from "../../src/compare/contrasts.ts";
import type { ComparedCell } from "../../src/compare/types.ts";
import { readReference } from "../readReference.ts";
import { constant, makeCell } from "./makeCell.ts";

/** R 4.2.2 with mvtnorm and multcomp: test/reference/compare.R. */
interface Reference {
  quantiles: { shared: number; apart: number; fifteen: number; known_margin: number };
  cells: { curing: string; age_d: number; values: number[] }[];
  s: number;
  df: number;
  rows: {
    curing: string;
    age_d: number;
    difference: number;
    p: number;
    lo95: number;
    hi95: number;
    lo90: number;
    hi90: number;
    n: number;
    n_reference: number;
  }[];
  holm: number[];
  dunnett: number[];
  equivalence: {
    margin: number;
    curing: string;
    age_d: number;
    p_low: number;
    p_high: number;
    p_below: number;
    p_above: number;
  }[];
  welch: { difference: number; p: number; df: number; interval: [number, number] };
  paired: { first: number[]; second: number[]; p: number; difference: number; interval: [number, number] };
  plants: { groups: Record<string, number[]>; p: number[]; t: number[]; estimate: number[] };
}
const reference = readReference<Reference>("compare");
const pooled = constant(reference.s, reference.df);
const cells = reference.cells.map(({ values, ...head }) => makeCell(values, { ...head, scatter: pooled }));
const moist = { reference: { curing: "moist" } } as const;

/** Relative, or absolute for numbers below one. */
const near = (a: number | null, b: number, tolerance = 1e-9) =>
  expect(Math.abs(a! - b) / Math.max(1, Math.abs(b)), `${a} and ${b}`).toBeLessThan(tolerance);

describe("against another regime", () => {
  test("differences, intervals and p values from the pooled scatter as R has them", () => {
    const { rows } = contrasts(cells, moist);
    expect(rows).toHaveLength(reference.rows.length);
    for (const row of rows) {
      const known = reference.rows.find((one) => one.curing === row.curing && one.age_d === row.age_d)!;
      for (const key of ["difference", "p", "lo95", "hi95", "lo90", "hi90"] as const) near(row[key], known[key]);
      expect([row.n, row.n_reference, row.df]).toEqual([known.n, known.n_reference, reference.df]);
    }
  });

  test("Holm over the whole family, all ages of one quantity and mix, as R's p.adjust", () => {
    const { rows, families } = contrasts(cells, moist);
    for (const [i, known] of reference.rows.entries()) {
      const row = rows.find((one) => one.curing === known.curing && one.age_d === known.age_d)!;
      near(row.p_adjusted, reference.holm[i]!);
      expect(row.difference_verdict).toBe(reference.holm[i]! > 0.05 ? "not shown" : "lower");
    }
    expect(families).toEqual([{ family: "strength, M1: regimes against moist", size: 6, adjustment: "holm" }]);
  });

  test("Dunnett over ages with a reference each, as R's multivariate t with two blocks", () => {
    const { rows } = contrasts(cells, { ...moist, adjustment: "dunnett" });
    for (const [i, known] of reference.rows.entries()) {
      const row = rows.find((one) => one.curing === known.curing && one.age_d === known.age_d)!;
      // λ is taken to 0.01, and R integrates by random points.
      near(row.p_adjusted, reference.dunnett[i]!, 5e-4);
    }
  });

  test("Dunnett for R's data set PlantGrowth as multcomp has it", () => {
    const { groups, p, estimate } = reference.plants;
    const values = Object.values(groups);
    const ss = values.flatMap((group) => {
      const centre = group.reduce((a, b) => a + b) / group.length;
      return group.map((value) => (value - centre) ** 2);
    });
    const scatter = constant(Math.sqrt(ss.reduce((a, b) => a + b) / 27), 27);
    const plants = Object.entries(groups).map(([curing, group]) => makeCell(group, { curing, scatter }));
    const { rows } = contrasts(plants, { reference: { curing: "ctrl" }, adjustment: "dunnett" });
    rows.forEach((row, i) => {
      near(row.difference, estimate[i]!);
      near(row.p_adjusted, p[i]!, 5e-4);
    });
  });

  test("Welch on request, as R's t.test", () => {
    const { rows } = contrasts(cells, { ...moist, scatter: "welch" });
    const row = rows.find(({ curing, age_d }) => curing === "cloth" && age_d === 28)!;
    const { difference, p, df, interval } = reference.welch;
    near(row.difference, difference);
    near(row.p, p);
    near(row.df, df);
    near(row.lo95, interval[0]);
    near(row.hi95, interval[1]);
  });

  test("Welch is refused where a cell has two specimens: no interval, no p, and the reason in both verdicts", () => {
    const { rows, families } = contrasts(cells, { ...moist, scatter: "welch" });
    const air = rows.find(({ curing, age_d }) => curing === "air" && age_d === 7)!;
    expect(air).toMatchObject({
      difference_verdict: "too-few-specimens",
      equivalence_verdict: "too-few-specimens",
      lo95: null,
      p: null,
      p_adjusted: null,
    });
    expect(air.difference).toBeCloseTo(31.05 - 36.4, 10);
    expect(families[0]!.size).toBe(5);
  });
});

describe("equivalence", () => {
  test("a share of the reference is tested in ratio form, as R computes it", () => {
    for (const margin of [0.05, 0.08, 0.12, 0.25]) {
      const margins = [{ quantity: null, kind: "share", size: margin, unit: null }] as const;
      const { rows } = contrasts(cells, { ...moist, margins });
      for (const row of rows) {
        const known = reference.equivalence.find(
          (one) => one.margin === margin && one.curing === row.curing && one.age_d === row.age_d,
        )!;
        const within = known.p_low <= 0.05 && known.p_high <= 0.05;
        const outside = known.p_below <= 0.05 || known.p_above <= 0.05;
        const verdict = within ? "within margin" : outside ? "outside margin" : "not shown";
        expect(row.equivalence_verdict, `${margin} ${row.curing} ${row.age_d}`).toBe(verdict);
        near(row.margin, margin * row.value_reference!);
      }
    }
  });

  test("a margin in the unit of the quantity: within exactly where the 90 % interval lies inside it", () => {
    for (const size of [1.5, 2.5, 4, 6, 8, 12]) {
      const margins = [{ quantity: "strength", kind: "value", size, unit: null }] as const;
      for (const row of contrasts(cells, { ...moist, margins }).rows) {
        const within = row.lo90! >= -size && row.hi90! <= size;
        const outside = row.hi90! <= -size || row.lo90! >= size;
        expect(row.equivalence_verdict).toBe(within ? "within margin" : outside ? "outside margin" : "not shown");
        expect(row.margin).toBe(size);
      }
    }
  });

  test("the two verdicts are never merged: one pair of cells may be lower and within the margin", () => {
    const margins = [{ quantity: null, kind: "share", size: 0.1, unit: null }] as const;
    const scatter = constant(0.5, 40);
    const pair = [makeCell([40, 40, 40], { scatter }), makeCell([38.5, 38.5, 38.5], { curing: "air", scatter })];
    const [row] = contrasts(pair, { ...moist, margins }).rows;
    expect([row!.difference_verdict, row!.equivalence_verdict]).toEqual(["lower", "within margin"]);
  });

  test("without a margin there is no claim of agreement, however small the difference", () => {
    const scatter = constant(0.5, 40);
    const [row] = contrasts(
      [makeCell([40, 40], { scatter }), makeCell([40, 40], { curing: "air", scatter })],
      moist,
    ).rows;
    expect([row!.difference_verdict, row!.equivalence_verdict, row!.margin]).toEqual([
      "not shown",
      "no margin given",
      null,
    ]);
  });
});

describe("errors that cells share", () => {
  const key = "temperature:B1";
  const scatter = constant(0.6, 12);
  const with_ = (values: number[], effect: number, given: Partial<ComparedCell> = {}) =>
    makeCell(values, { scatter, shared: [{ cause: "temperature", effect, key }], ...given });

  test("the same error in both counts only by the difference of what it does", () => {
    const pair = [with_([20, 20, 20], 0.5), with_([18, 18, 18], 0.4, { curing: "air" })];
    const [row] = contrasts(pair, moist).rows;
    // u² = (0.5 − 0.4)² + 0.6²(1/3 + 1/3) = 0.01 + 0.24; ν = 12·(0.25/0.24)² by Welch and Satterthwaite.
    expect((row!.hi95! - row!.lo95!) / 2).toBeCloseTo(0.5 * reference.quantiles.shared, 8);
    expect(row!.df).toBeCloseTo(12 * (0.25 / 0.24) ** 2, 10);
  });

  test("errors under different keys are independent and both count in full", () => {
    const pair = [
      with_([20, 20, 20], 0.5),
      makeCell([18, 18, 18], {
        curing: "air",
        scatter,
        shared: [{ cause: "temperature", effect: 0.4, key: "temperature:B2" }],
      }),
    ];
    const [row] = contrasts(pair, moist).rows;
    // 0.5² + 0.4² + 0.24 = 0.65; 12·(0.65/0.24)² = 88 degrees of freedom.
    expect(row!.df).toBeCloseTo(12 * (0.65 / 0.24) ** 2, 8);
    expect((row!.hi95! - row!.lo95!) / 2).toBeCloseTo(Math.sqrt(0.65) * reference.quantiles.apart, 8);
  });
});

describe("ratio", () => {
  test("scatter in proportion to the value: on the scale of logarithms, symmetric as a factor", () => {
    const scatter = { model: "proportional", a: 0, b: 0.04, df: 15 } as const;
    const [row] = contrasts(
      [makeCell([40, 41, 42], { scatter }), makeCell([33, 32, 34], { curing: "air", scatter })],
      moist,
    ).rows;
    expect(row!.ratio_pct).toBeCloseTo((100 * 33) / 41, 10);
    expect((row!.ratio_hi95! / row!.ratio_pct!) * (row!.ratio_lo95! / row!.ratio_pct!)).toBeCloseTo(1, 10);
    // ln r ± t(0.975, 15)·0.04·√(1/3 + 1/3)
    expect(Math.log(row!.ratio_hi95! / row!.ratio_pct!)).toBeCloseTo(
      reference.quantiles.fifteen * 0.04 * Math.sqrt(2 / 3),
      10,
    );
  });

  test("constant scatter: by Fieller, whose ends are the shares f at which value − f·reference is just not shown to differ from zero", () => {
    const scatter = constant(1.2, 15);
    const [row] = contrasts(
      [makeCell([40, 41, 42], { scatter }), makeCell([33, 32, 34], { curing: "air", scatter })],
      moist,
    ).rows;
    for (const f of [row!.ratio_lo95! / 100, row!.ratio_hi95! / 100]) {
      const t = (33 - f * 41) / (1.2 * Math.sqrt((1 + f * f) / 3));
      expect(Math.abs(t)).toBeCloseTo(reference.quantiles.fifteen, 8);
    }
    expect(row!.method).toContain("Fieller");
  });

  test("a reference that may be zero has no share, and a margin in % of it shows nothing", () => {
    const scatter = constant(1, 12);
    const margins = [{ quantity: null, kind: "share", size: 0.2, unit: null }] as const;
    const pair = [makeCell([0.4, -0.3, 0.2], { scatter }), makeCell([5, 6, 5.5], { curing: "air", scatter })];
    const [row] = contrasts(pair, { ...moist, margins }).rows;
    expect(row).toMatchObject({
      difference_verdict: "higher",
      equivalence_verdict: "not shown",
      margin: null,
      ratio_pct: null,
      ratio_lo95: null,
    });
  });

  test("negative values (shrinkage) compare like others, and a margin in % is one of their size", () => {
    const scatter = constant(10, 12);
    const margins = [{ quantity: null, kind: "share", size: 0.2, unit: null }] as const;
    const pair = [makeCell([-500, -510, -490], { scatter }), makeCell([-520, -515, -525], { curing: "air", scatter })];
    const [row] = contrasts(pair, { ...moist, margins }).rows;
    expect(row!.margin).toBeCloseTo(100, 10);
    expect(row!.equivalence_verdict).toBe("within margin");
    expect(row!.ratio_pct).toBeCloseTo(104, 10);
    const [far] = contrasts([pair[0]!, makeCell([-700, -690, -710], { curing: "air", scatter })], {
      ...moist,
      margins,
    }).rows;
    expect([far!.difference_verdict, far!.equivalence_verdict]).toEqual(["lower", "outside margin"]);
  });
});

describe("against another age", () => {
  test("each regime is held against itself at the reference age, in a family of its own", () => {
    const { rows, families } = contrasts(cells, { ...moist, reference_age_min: 28 * 1440 });
    const ages = rows.filter(({ against }) => against === "age");
    expect(ages.map(({ curing, age_d, reference }) => [curing, age_d, reference])).toEqual(
      ["air", "cloth", "moist", "wax"].map((curing) => [curing, 7, "age 28d"]),
    );
    expect(families.map(({ family, size }) => [family, size])).toEqual([
      ["strength, M1: regimes against moist", 6],
      ["strength, M1: ages against 28d", 4],
    ]);
  });

  test("one family for the whole campaign, if asked", () => {
    const { rows, families } = contrasts(cells, { ...moist, reference_age_min: 28 * 1440, family: "campaign" });
    expect(families).toEqual([{ family: "campaign", size: 10, adjustment: "holm" }]);
    const smallest = Math.min(...rows.map(({ p }) => p!));
    expect(rows.find(({ p }) => p === smallest)!.p_adjusted).toBeCloseTo(10 * smallest, 12);
  });

  test("named specimens measured at both ages are compared pair by pair, as R's paired t.test", () => {
    const { first, second, p, difference, interval } = reference.paired;
    const prisms = (values: number[], age_d: number) => ({
      ...makeCell(values, { age_d, quantity: "length_change", unit: "microstrain", scatter: constant(15, 9) }),
      specimens: values.map((value, i) => ({ specimen: `prism ${i}`, value })),
    });
    const { rows } = contrasts([prisms(second, 28), prisms(first, 1)], { ...moist, reference_age_min: 1440 });
    const [row] = rows;
    near(row!.difference, difference);
    near(row!.p, p);
    near(row!.lo95, interval[0]);
    near(row!.hi95, interval[1]);
    expect(row!.method).toContain("paired");
  });

  test("specimens called 1, 2, 3 at every age are other ones each time", () => {
    const scatter = constant(15, 9);
    const young = makeCell([10, 11, 12], { age_d: 1, scatter });
    const { rows } = contrasts([young, makeCell([20, 21, 22], { scatter })], { ...moist, reference_age_min: 1440 });
    expect(rows[0]!.method).toContain("pooled");
  });

  test("fewer than three pairs have no verdict", () => {
    const prisms = (values: number[], age_d: number) => ({
      ...makeCell(values, { age_d, scatter: constant(15, 9) }),
      specimens: values.map((value, i) => ({ specimen: `prism ${i}`, value })),
    });
    const { rows } = contrasts([prisms([5, 6], 1), prisms([9, 8], 28)], { ...moist, reference_age_min: 1440 });
    expect(rows[0]!.difference_verdict).toBe("too-few-specimens");
  });
});

describe("odd designs", () => {
  const scatter = constant(1, 12);

  test("one specimen has no verdict, no interval and no part in the family, on either side", () => {
    const three = makeCell([40, 41, 42], { scatter });
    const one = (curing: string) => makeCell([35], { curing, scatter });
    const { rows, families } = contrasts(
      [three, one("air"), makeCell([39, 40, 41], { curing: "wax", scatter })],
      moist,
    );
    const air = rows.find(({ curing }) => curing === "air")!;
    expect(air).toMatchObject({ difference_verdict: "one-specimen", equivalence_verdict: "one-specimen" });
    expect([air.lo95, air.p, air.p_adjusted, air.smallest_margin, air.difference]).toEqual([
      null,
      null,
      null,
      null,
      -6,
    ]);
    expect(families[0]!.size).toBe(1);
    const alone = contrasts([makeCell([40], { scatter }), makeCell([30, 31, 32], { curing: "air", scatter })], moist);
    expect(alone.rows[0]!.difference_verdict).toBe("one-specimen");
    expect(alone.families).toEqual([]);
  });

  test("one specimen everywhere: every row is there, none has a verdict", () => {
    const all = ["moist", "air", "wax"].map((curing, i) => makeCell([40 - i], { curing }));
    const { rows } = contrasts(all, moist);
    expect(rows.map(({ difference_verdict }) => difference_verdict)).toEqual(["one-specimen", "one-specimen"]);
  });

  test("a reference that is missing at an age", () => {
    const { rows } = contrasts(
      [makeCell([40, 41], { scatter }), makeCell([30, 31], { curing: "air", age_d: 7, scatter })],
      moist,
    );
    expect(rows[0]).toMatchObject({
      difference_verdict: "no-reference",
      n_reference: 0,
      value: 30.5,
      value_reference: null,
      difference: null,
    });
  });

  test("a cell none of whose runs has the value", () => {
    const { rows } = contrasts([makeCell([40, 41], { scatter }), makeCell([], { curing: "air", scatter })], moist);
    expect(rows[0]).toMatchObject({ difference_verdict: "no-value", n: 0, value: null });
  });

  test("specimens that do not scatter at all are no proof of anything", () => {
    const none = constant(0, 4);
    const { rows } = contrasts(
      [makeCell([40, 40], { scatter: none }), makeCell([30, 30], { curing: "air", scatter: none })],
      moist,
    );
    expect(rows[0]).toMatchObject({ difference_verdict: "no-scatter", equivalence_verdict: "no-scatter", p: null });
  });

  test("three aliquots of one specimen given as three specimens are refused", () => {
    const aliquots = { ...makeCell([40, 41, 42]), specimens: [40, 41, 42].map((value) => ({ specimen: "A", value })) };
    expect(() => contrasts([aliquots], moist)).toThrow(
      new RangeError(
        'Average the aliquots of a specimen first: strength of M1, moist, 28 d has the specimen "A" more than once',
      ),
    );
  });

  test("a cell that is there twice is refused", () => {
    expect(() => contrasts([makeCell([40, 41]), makeCell([42, 43])], moist)).toThrow(
      "Give every cell once: strength of M1, moist, 28 d is there twice",
    );
  });

  test("mixes are kept apart, and cells without an age are held against one another", () => {
    const of = (mix: string | null, curing: string, age_d: number | null) =>
      makeCell([40, 41, 42], { mix, curing, age_d, scatter });
    const all = [of("M1", "moist", null), of("M1", "air", null), of(null, "moist", 7), of(null, "air", 7)];
    const { rows } = contrasts(all, { ...moist, reference_age_min: 7 * 1440 });
    expect(rows.map(({ mix, curing, age_d, n_reference }) => [mix, curing, age_d, n_reference])).toEqual([
      [null, "air", 7, 3],
      ["M1", "air", null, 3],
    ]);
  });

  test("the order of the cells changes nothing, and they are not changed", () => {
    const copy = structuredClone(cells);
    const forward = contrasts(cells, { ...moist, reference_age_min: 28 * 1440 });
    expect(contrasts(cells.toReversed(), { ...moist, reference_age_min: 28 * 1440 })).toEqual(forward);
    expect(cells).toEqual(copy);
  });
});

test("the smallest margin for a known scatter is where 2Φ(Δ/u − z(0.95)) − 1 is 80 %", () => {
  // No true difference (D. J. Schuirmann, J Pharmacokinet Biopharm 15:657, 1987): Δ = (z(0.95) + z(0.90))·u.
  const scatter = constant(1, 1e6);
  const [row] = contrasts(
    [makeCell([40, 41], { scatter }), makeCell([40, 41], { curing: "air", scatter })],
    moist,
  ).rows;
  expect(row!.smallest_margin).toBeCloseTo(reference.quantiles.known_margin, 4);
});
