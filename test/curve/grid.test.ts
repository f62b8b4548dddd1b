import { describe, expect, test } from "vitest";
import { gridMeans } from "../../src/curve/gridMeans.ts";
import { gridMeansTransposed } from "../../src/curve/gridMeansTransposed.ts";
import { isotonicKnots } from "../../src/curve/isotonicKnots.ts";

/** The same mean by plain geometry: the trapezoids between all knots and the two edges. */
function meanByHand(T: number[], m: number[], low: number, high: number): number {
  const at = (t: number) => {
    const i = Math.min(Math.max(T.findIndex((x) => x > t) - 1, 0), T.length - 2);
    return m[i]! + ((m[i + 1]! - m[i]!) * (t - T[i]!)) / (T[i + 1]! - T[i]!);
  };
  const points = [low, ...T.filter((t) => t > low && t < high), high];
  let sum = 0;
  for (let i = 1; i < points.length; i++) {
    sum += 0.5 * (points[i]! - points[i - 1]!) * (at(points[i - 1]!) + at(points[i]!));
  }
  return sum / (high - low);
}

const layouts = {
  "dense readings": Array.from({ length: 400 }, (_, i) => 30 + i * 0.05 + 0.013 * Math.sin(i)),
  "one reading per step": Array.from({ length: 50 }, (_, i) => 30 + i * 0.5),
  "sparse readings": Array.from({ length: 15 }, (_, i) => 30 + i * 1.7),
  "uneven readings": [30, 30.1, 30.15, 33, 33.2, 37, 41, 41.01, 45],
};

describe("the grid", () => {
  test.for(Object.entries(layouts))("is the mean of the piecewise-linear curve over each step: %s", ([, T]) => {
    const m = T.map((t, i) => 20 - 0.1 * (t - 30) - 0.3 * Math.sin(i));
    const step = 0.5;
    const first = Math.ceil(T[0]! / step + 0.5);
    const n = Math.floor(T.at(-1)! / step - 0.5) - first + 1;
    const out = new Float64Array(n);
    gridMeans(Float64Array.from(T), Float64Array.from(m), { first, step, out });
    for (let k = 0; k < n; k++) {
      const centre = (first + k) * step;
      expect(out[k]).toBeCloseTo(meanByHand(T, m, centre - step / 2, centre + step / 2), 10);
    }
  });

  test.for(Object.entries(layouts))("and its transpose: Σ w·(G m) = Σ (Gᵀ w)·m: %s", ([, T]) => {
    const m = Float64Array.from(T, (t, i) => 20 - 0.1 * (t - 30) - 0.3 * Math.sin(i));
    const step = 0.5;
    const first = Math.ceil(T[0]! / step + 0.5);
    const n = Math.floor(T.at(-1)! / step - 0.5) - first + 1;
    const out = new Float64Array(n);
    gridMeans(Float64Array.from(T), m, { first, step, out });
    const w = Float64Array.from({ length: n }, (_, k) => Math.cos(k * 0.7));
    const all = (values: Float64Array) => ({ values, from: 0, to: values.length });
    const back = gridMeansTransposed(all(Float64Array.from(T)), all(Float64Array.from(w)), { first, step });
    const direct = w.reduce((sum, x, k) => sum + x * out[k]!, 0);
    expect(back.reduce((sum, x, i) => sum + x * m[i]!, 0)).toBeCloseTo(direct, 9);
  });

  test("a straight line is itself on the grid, whatever the readings", () => {
    const T = Float64Array.from(layouts["uneven readings"]);
    const out = new Float64Array(20);
    gridMeans(
      T,
      T.map((t) => 5 - 0.25 * t),
      { first: 62, step: 0.5, out },
    );
    for (let k = 0; k < 20; k++) expect(out[k]).toBeCloseTo(5 - 0.25 * (62 + k) * 0.5, 12);
  });
});

describe("isotonic temperature", () => {
  test("growing readings are their own knots and are not copied", () => {
    const T = Float64Array.of(1, 2, 3, 4);
    const knots = isotonicKnots(T, 1, 4);
    expect([...knots.temperature]).toEqual([2, 3, 4]);
    expect(knots.knotOf).toBeNull();
  });

  test("a step back is pooled with the readings before it, none is dropped", () => {
    // By hand: 12, 11 → 11.5; 11.4 below it → (12+11+11.4)/3 = 11.4667; 13 grows again.
    const knots = isotonicKnots(Float64Array.of(10, 12, 11, 11.4, 13), 0, 5);
    expect(knots.temperature[0]).toBe(10);
    expect(knots.temperature[1]).toBeCloseTo(34.4 / 3, 12);
    expect(knots.temperature[2]).toBe(13);
    expect([...knots.knotOf!]).toEqual([0, 1, 1, 1, 2]);
    expect([...knots.count!]).toEqual([1, 3, 1]);
  });

  test("equal temperatures form one knot", () => {
    const knots = isotonicKnots(Float64Array.of(25, 25, 25, 26), 0, 4);
    expect([...knots.temperature]).toEqual([25, 26]);
    expect([...knots.count!]).toEqual([3, 1]);
  });
});
