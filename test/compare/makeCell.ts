import type { Scatter } from "../../src/campaign/scatterOf.ts";
import type { ComparedCell } from "../../src/compare/types.ts";

/** A cell with these specimens; strength of M1, cured `curing`, at 28 d, without known scatter unless said otherwise. */
export function makeCell(values: readonly number[], given: Partial<ComparedCell> = {}): ComparedCell {
  return {
    mix: "M1",
    curing: "moist",
    curing_d: null,
    age_d: 28,
    quantity: "strength",
    kind: "property",
    unit: "MPa",
    specimens: values.map((value, i) => ({ specimen: `${i + 1}`, value })),
    value: values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length,
    shared: [],
    scatter: null,
    flags: [],
    ...given,
  };
}

/** Scatter of one standard deviation throughout. */
export const constant = (a: number, df: number): Scatter => ({ model: "constant", a, b: 0, df });
