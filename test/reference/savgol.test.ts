import { expect, test } from "vitest";
import { applyFilter } from "../../src/curve/applyFilter.ts";
import { filterTable } from "../../src/curve/filterTable.ts";
import { readReference } from "../readReference.ts";

/** SciPy 1.10.1, scipy.signal.savgol_filter(mode="interp"): test/reference/savgol.py. */
const { step, mass, cases } = readReference<{
  step: number;
  mass: number[];
  cases: { points: number; degree: number; derivative: number; values: number[] }[];
}>("savgol");

test.for(cases.map((one) => [one.points, one.degree, one.derivative, one] as const))(
  "Savitzky–Golay of %i points, degree %i, derivative %i is SciPy's within 1e-9 of the largest value, ends included",
  ([points, degree, derivative, { values }]) => {
    const out = new Float64Array(mass.length);
    applyFilter(filterTable(points, { degree, derivative, step }), Float64Array.from(mass), {
      out,
      first: 0,
      end: mass.length,
    });
    const largest = Math.max(...values.map(Math.abs));
    const worst = Math.max(...values.map((value, i) => Math.abs(value - out[i]!)));
    expect(worst / largest).toBeLessThan(1e-9);
  },
);
