import { describe, expect, test } from "vitest";
import { growth } from "../../src/compare/growth.ts";
import { readReference } from "../readReference.ts";
import { makeCell } from "./makeCell.ts";

/** R 4.2.2, lm: test/reference/compare.R. */
const { growth: reference } = readReference<{
  growth: { age: number[]; y: number[]; slope: number; interval: [number, number] };
}>("compare");

const ages = [...new Set(reference.age)];
const grown = ages.map((age_d) =>
  makeCell(
    reference.y.filter((_, i) => reference.age[i] === age_d),
    { age_d },
  ),
);

describe("with age", () => {
  test("slope per tenfold age with its interval as R's lm has them, through the specimens", () => {
    const [row] = growth(grown);
    expect(row).toMatchObject({ against: "age", curing: "moist", n_cells: 4, n_specimens: 11, from_d: 1, to_d: 28 });
    expect(row!.slope).toBeCloseTo(reference.slope, 10);
    expect(row!.slope_lo95).toBeCloseTo(reference.interval[0], 10);
    expect(row!.slope_hi95).toBeCloseTo(reference.interval[1], 10);
    expect(row!.slope_df).toBe(9);
  });

  test("a rise that every pair of ages shows; the four means alone could not show it", () => {
    const rising = [1, 3, 7, 28].map((age_d, i) => makeCell([10 * i + 1, 10 * i + 2, 10 * i + 3], { age_d }));
    const [row] = growth(rising);
    expect(row!.verdict).toBe("rises");
    // One arrangement of 12!/(3!)⁴ = 369600 and its mirror image.
    expect(row!.order_p).toBeCloseTo(2 / 369600, 12);
    expect(row!.order_exact).toBe(true);
    // 2 of 4! orders (H. B. Mann, 1945).
    expect(row!.trend_p).toBeCloseTo(2 / 24, 12);
    expect(row!.trend_smallest_p).toBeCloseTo(2 / 24, 12);
    expect(row!.sentence).toBe(
      "strength of M1, moist, with age: rises (test of order on specimens, p < 0.0001). The 4 means alone could not show it, whatever their values (Mann–Kendall: p at least 0.083).",
    );
  });

  test("a fall is a fall", () => {
    const falling = [1, 3, 7, 28].map((age_d, i) => makeCell([-10 * i + 1, -10 * i + 2, -10 * i + 3], { age_d }));
    expect(growth(falling)[0]!.verdict).toBe("falls");
  });

  test("one specimen at each of four ages: no data could show a trend, and that is said", () => {
    const [row] = growth([1, 3, 7, 28].map((age_d, i) => makeCell([10 * i], { age_d })));
    expect(row!.verdict).toBe("cannot be shown");
    expect(row!.sentence).toBe(
      "strength of M1, moist, with age: a steady rise or fall cannot be shown with so few specimens, whatever their values (p at least 0.083).",
    );
  });

  test("ties: all values equal are no trend", () => {
    const [row] = growth([1, 7, 28].map((age_d) => makeCell([5, 5, 5], { age_d })));
    expect(row).toMatchObject({ verdict: "not shown", order_p: null, slope: 0 });
    expect(row!.sentence).toContain("no steady rise or fall was shown (all values are equal)");
  });

  test("an age of zero has no logarithm and is left out; a regime with one age has no row", () => {
    expect(growth([makeCell([1, 2], { age_d: 0 }), makeCell([3, 4], { age_d: 7 })])).toEqual([]);
    expect(growth([makeCell([3, 4], { age_d: 7 })])).toEqual([]);
    const three = [0, 7, 28].map((age_d) => makeCell([3, 4], { age_d }));
    expect(growth(three)[0]).toMatchObject({ n_cells: 2, from_d: 7 });
  });

  test("the same named prisms at every age are no independent witnesses: a slope without interval and verdict", () => {
    const prisms = [1, 7, 28].map((age_d, i) => ({
      ...makeCell([10 * i, 10 * i + 1, 10 * i + 2], { age_d }),
      specimens: [0, 1, 2].map((k) => ({ specimen: `prism ${k}`, value: 10 * i + k })),
    }));
    const [row] = growth(prisms);
    expect(row).toMatchObject({
      verdict: "same-specimens",
      slope_lo95: null,
      sen_lo95: null,
      order_p: null,
      trend_p: null,
    });
    expect(row!.slope).not.toBe(null);
  });
});

describe("with the days of moist curing", () => {
  const at = (curing: string, curing_d: number | null, values: number[], age_d = 28) =>
    makeCell(values, { curing, curing_d, age_d });

  test("durations of one curing at one age, zero days of any curing as their zero", () => {
    const cells = [
      at("cloth", 7, [41, 42]),
      at("cloth", 1, [33, 34]),
      at("air", 0, [29, 30]),
      at("sealed", null, [43, 44]),
    ];
    const rows = growth(cells).filter(({ against }) => against === "curing");
    expect(rows).toHaveLength(1);
    expect(rows[0]).toMatchObject({ curing: "cloth", curing_d: null, age_d: 28, n_cells: 3, from_d: 0, to_d: 7 });
    // Least squares by its definition.
    const x = [0, 0, 1, 1, 7, 7];
    const y = [29, 30, 33, 34, 41, 42];
    const mean = (list: number[]) => list.reduce((sum, value) => sum + value) / list.length;
    const sxy = x.reduce((sum, value, i) => sum + (value - mean(x)) * (y[i]! - mean(y)), 0);
    const sxx = x.reduce((sum, value) => sum + (value - mean(x)) ** 2, 0);
    expect(rows[0]!.slope).toBeCloseTo(sxy / sxx, 12);
  });

  test("curing until the test counts as long as the age, where the same curing has other durations", () => {
    const rows = growth([at("moist", null, [41, 42]), at("moist", 3, [38, 39]), at("moist", 7, [40, 41])]);
    expect(rows.find(({ against }) => against === "curing")).toMatchObject({ from_d: 3, to_d: 28, n_cells: 3 });
  });

  test("two ways of not curing at all cannot both be the zero", () => {
    const rows = growth([
      at("cloth", 7, [41, 42]),
      at("cloth", 1, [33, 34]),
      at("air", 0, [29, 30]),
      at("wind", 0, [28, 27]),
    ]);
    expect(rows.find(({ against }) => against === "curing")).toMatchObject({ from_d: 1 });
  });

  test("one duration is no series", () => {
    expect(growth([at("cloth", 7, [41, 42]), at("sealed", null, [43, 44])])).toEqual([]);
  });
});
