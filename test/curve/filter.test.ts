import { describe, expect, test } from "vitest";
import { applyFilter } from "../../src/curve/applyFilter.ts";
import { applyFilterTransposed } from "../../src/curve/applyFilterTransposed.ts";
import { filterTable } from "../../src/curve/filterTable.ts";

function filtered(y: Float64Array, points: number, options: { degree: number; derivative: number; step: number }) {
  const out = new Float64Array(y.length);
  applyFilter(filterTable(points, options), y, { out, first: 0, end: y.length });
  return out;
}

describe("Savitzky–Golay weights", () => {
  test.for([
    [5, 2],
    [21, 3],
    [101, 3],
    [201, 3],
  ] as const)(
    "a polynomial of the filter's degree passes unchanged, ends included: %i points, degree %i",
    ([points, degree]) => {
      const step = 0.5;
      const n = points + 40;
      const x = Float64Array.from({ length: n }, (_, i) => (i - n / 2) / n);
      const polynomial = (t: number) =>
        Array.from({ length: degree + 1 }, (_, d) => (d + 1) * t ** d).reduce((a, b) => a + b);
      const slope = (t: number) =>
        Array.from({ length: degree }, (_, d) => (d + 2) * (d + 1) * t ** d).reduce((a, b) => a + b, 0) / n / step;
      const y = x.map(polynomial);
      const smooth = filtered(y, points, { degree, derivative: 0, step });
      const derivative = filtered(y, points, { degree, derivative: 1, step });
      const largest = Math.max(...x.map((t) => Math.abs(slope(t))));
      let [worst, worstSlope] = [0, 0];
      for (let i = 0; i < n; i++) {
        worst = Math.max(worst, Math.abs(smooth[i]! - y[i]!) / Math.max(...y));
        worstSlope = Math.max(worstSlope, Math.abs(derivative[i]! - slope(x[i]!)) / largest);
      }
      expect(worst).toBeLessThan(1e-9);
      expect(worstSlope).toBeLessThan(1e-8);
    },
  );

  test("the five-point quadratic kernel is the published one: −3 12 17 12 −3, over 35 (Savitzky and Golay 1964, table I)", () => {
    const { interior } = filterTable(5, { degree: 2, derivative: 0, step: 1 });
    [-3, 12, 17, 12, -3].forEach((c, j) => {
      expect(interior[j]).toBeCloseTo(c / 35, 12);
    });
  });

  test("the transpose of a filter is its transpose: Σ w·(F y) = Σ (Fᵀ w)·y for every grid point", () => {
    const n = 40;
    const y = Float64Array.from({ length: n }, (_, i) => Math.sin(i * 1.7) + 0.1 * i);
    for (const derivative of [0, 1]) {
      const table = filterTable(11, { degree: 3, derivative, step: 0.5 });
      const out = new Float64Array(n);
      applyFilter(table, y, { out, first: 0, end: n });
      for (let k = 0; k < n; k++) {
        const weights = new Float64Array(n);
        applyFilterTransposed(table, { k, w: 2 }, { weights, first: 0, end: n });
        const sum = weights.reduce((total, w, i) => total + w * y[i]!, 0);
        expect(sum).toBeCloseTo(2 * out[k]!, 10);
      }
    }
  });

  test("an even kernel is refused with what to do", () => {
    expect(() => filterTable(10, { degree: 3, derivative: 0, step: 1 })).toThrow(
      new RangeError("Use an odd number of points above the degree 3 for smoothing, not 10"),
    );
  });

  test("a stretch shorter than the kernel is refused", () => {
    const table = filterTable(21, { degree: 3, derivative: 0, step: 1 });
    expect(() => applyFilter(table, new Float64Array(20), { out: new Float64Array(20), first: 0, end: 20 })).toThrow(
      new RangeError("Smoothing needs at least 21 grid points, there are 20"),
    );
  });
});
