import { describe, expect, test } from "vitest";
import type { ContrastRow } from "../../src/campaign/decisions.ts";
import { contrasts } from "../../src/compare/contrasts.ts";
import { partedWays } from "../../src/compare/partedWays.ts";
import { together } from "../../src/compare/together.ts";
import { readReference } from "../readReference.ts";
import { constant, makeCell } from "./makeCell.ts";

/** R 4.2.2, cor of residuals of lm and cor.test: test/reference/compare.R. */
const { pairs: reference } = readReference<{
  pairs: {
    age: number[];
    x: number[];
    y: number[];
    r: number;
    interval: [number, number];
    pooled: number;
    pooled_interval: [number, number];
  };
}>("compare");

const cellsOf = (values: readonly number[], quantity: string, mix = "M1") =>
  values.map((value, i) =>
    makeCell([value], {
      mix,
      quantity,
      kind: quantity === "strength" ? "property" : "index",
      curing: `regime ${i % 4}`,
      age_d: reference.age[i]!,
    }),
  );

describe("correlation", () => {
  const { rows, pairs } = together(cellsOf(reference.x, "ah3"), cellsOf(reference.y, "strength"));
  const of = (adjusted_for: string, method: string) =>
    rows.find((row) => row.adjusted_for === adjusted_for && row.method === method)!;

  test("the age-adjusted one leads, and is R's partial correlation given the age", () => {
    expect(rows.map(({ adjusted_for, method }) => [adjusted_for, method])).toEqual([
      ["age", "pearson"],
      ["age", "spearman"],
      ["none", "pearson"],
      ["none", "spearman"],
    ]);
    const row = of("age", "pearson");
    expect(row).toMatchObject({ n_cells: 12, n_groups: 3, verdict: "rise together" });
    expect(row.r).toBeCloseTo(reference.r, 10);
    expect(row.lo95).toBeCloseTo(reference.interval[0], 8);
    expect(row.hi95).toBeCloseTo(reference.interval[1], 8);
    // Inside three ages of four cells: (4!)³ permutations, all of them.
    expect(row.exact).toBe(true);
  });

  test("ages thrown together are labelled so, and are R's cor.test", () => {
    const row = of("none", "pearson");
    expect(row.r).toBeCloseTo(reference.pooled, 10);
    expect(row.lo95).toBeCloseTo(reference.pooled_interval[0], 8);
    expect(row.hi95).toBeCloseTo(reference.pooled_interval[1], 8);
  });

  test("the scatter table has every cell with its differences from the mean of its age", () => {
    expect(pairs).toHaveLength(12);
    const first = pairs.filter(({ age_d }) => age_d === 1);
    const sum = first.reduce((total, pair) => total + pair.index_less_age!, 0);
    expect(sum).toBeCloseTo(0, 10);
    expect(first[0]!.index - first[1]!.index).toBeCloseTo(first[0]!.index_less_age! - first[1]!.index_less_age!, 10);
  });

  test("growth alone gives a high pooled correlation and none given the age", () => {
    // Inside each age strength falls as the index rises; over ages both grow.
    const x = reference.age.map((age, i) => 10 * Math.log(age + 1) + (i % 4));
    const y = reference.age.map((age, i) => 10 * Math.log(age + 1) - (i % 4));
    const { rows: own } = together(cellsOf(x, "ah3"), cellsOf(y, "strength"));
    expect(own.find(({ adjusted_for }) => adjusted_for === "none")).toMatchObject({ verdict: "rise together" });
    expect(own.find(({ adjusted_for }) => adjusted_for === "age")).toMatchObject({
      r: expect.closeTo(-1, 10),
      verdict: "run against each other",
      lo95: null,
    });
  });
});

describe("odd designs", () => {
  test("one cell per age says nothing once the age's mean is taken", () => {
    const some = [0, 4, 8];
    const pick = (quantity: string, values: number[]) => cellsOf(values, quantity).filter((_, i) => some.includes(i));
    const { rows, pairs } = together(pick("ah3", reference.x), pick("strength", reference.y));
    expect(rows[0]).toMatchObject({ adjusted_for: "age", n_cells: 0, r: null, verdict: "too-few-cells" });
    expect(pairs.every(({ index_less_age }) => index_less_age === null)).toBe(true);
  });

  test("cells without a run, or without the property, are left out; without any common cell there is no row", () => {
    const index = cellsOf(reference.x, "ah3").slice(0, 6);
    const property = cellsOf(reference.y, "strength").slice(3);
    expect(together(index, property).pairs).toHaveLength(3);
    expect(together(index, cellsOf(reference.y, "strength", "M2")).rows).toEqual([]);
  });

  test("equal values everywhere have no correlation", () => {
    const flat = reference.y.map(() => 40);
    const { rows } = together(cellsOf(reference.x, "ah3"), cellsOf(flat, "strength"));
    expect(rows.map(({ verdict }) => verdict)).toEqual(["no-scatter", "no-scatter", "no-scatter", "no-scatter"]);
  });

  test("several mixes: each by itself, then all, each age of each mix by its own mean", () => {
    const twice = (quantity: string, values: number[]) => [
      ...cellsOf(values, quantity),
      ...cellsOf(
        values.map((value) => value + 100),
        quantity,
        "M2",
      ),
    ];
    const { rows } = together(twice("ah3", reference.x), twice("strength", reference.y));
    expect(rows.filter(({ adjusted_for, method }) => adjusted_for === "age" && method === "pearson")).toMatchObject([
      { mix: "M1", n_cells: 12 },
      { mix: "M2", n_cells: 12 },
      { mix: null, n_cells: 24, n_groups: 6, r: expect.closeTo(reference.r, 9) },
    ]);
  });
});

describe("where they part ways", () => {
  const windows = [
    { name: "ah3", to_C: 350 },
    { name: "carbonate", to_C: 850 },
  ];
  const scatter = constant(1, 30);
  /** AH3 and strength of one regime against moist curing, 20 and 40 of it. */
  function parted(ah3: number, strength: number, margin?: number): string[] {
    const of = (quantity: string, value: number, curing: string) =>
      makeCell([value, value, value], {
        ...{ quantity, curing, scatter },
        ...(quantity === "strength" ? {} : { kind: "index", unit: "g/100 g" }),
      });
    const cells = [
      of("ah3", 20, "moist"),
      of("ah3", ah3, "air"),
      of("strength", 40, "moist"),
      of("strength", strength, "air"),
    ];
    const margins =
      margin === undefined ? [] : [{ quantity: "strength", kind: "value", size: margin, unit: null } as const];
    const { rows } = contrasts(cells, { reference: { curing: "moist" }, margins });
    return partedWays(rows, windows).map(({ sentence }) => sentence);
  }

  test.for([
    [26, 46, undefined, []],
    [14, 34, undefined, []],
    [20, 40, undefined, []],
    [
      26,
      40,
      undefined,
      [
        "M1, air at 28 d against moist: more ah3 (130 %), but no higher strength (100 %) was shown; that it is the same is not shown either.",
      ],
    ],
    [
      26,
      40,
      4,
      [
        "M1, air at 28 d against moist: more ah3 (130 %), but no higher strength (100 %) was shown: it stays within the stated margin.",
      ],
    ],
    [26, 34, undefined, ["M1, air at 28 d against moist: more ah3 (130 %), yet lower strength (85 %)."]],
    [
      20,
      34,
      undefined,
      ["M1, air at 28 d against moist: lower strength (85 %), but no loss of ah3 (100 %) was shown."],
    ],
    [
      14,
      40,
      undefined,
      [
        "M1, air at 28 d against moist: less ah3 (70 %), but no lower strength (100 %) was shown; that it is the same is not shown either.",
      ],
    ],
  ] as const)("AH3 %d of 20 and strength %d of 40, margin %s", ([ah3, strength, margin, sentences]) => {
    expect(parted(ah3, strength, margin)).toEqual(sentences);
  });

  test("carbon dioxide is no hydrate, and what has no verdict parts no ways", () => {
    const row = (quantity: string, given: Partial<ContrastRow>) =>
      ({
        ...contrasts([makeCell([1]), makeCell([2], { curing: "air" })], { reference: { curing: "moist" } }).rows[0]!,
        quantity,
        ...given,
      }) as ContrastRow;
    const shown = { p: 0.001, difference_verdict: "higher", ratio_pct: 200 } as const;
    const open = { p: 0.5, difference_verdict: "not shown", ratio_pct: 101 } as const;
    expect(partedWays([row("carbonate", shown), row("strength", open)], windows)).toEqual([]);
    expect(partedWays([row("ah3", shown), row("strength", {})], windows)).toEqual([]);
    expect(partedWays([row("ah3", shown), row("strength", open)], windows)).toHaveLength(1);
  });
});
