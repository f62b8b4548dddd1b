import { type Flag, flag } from "../flags.ts";
import { cochranTest } from "../numerics/cochranTest.ts";
import { leveneTest } from "../numerics/leveneTest.ts";
import { mean } from "../numerics/mean.ts";
import type { ScatterRow } from "./types.ts";

/** Specimen means of one cell and what to call it. */
export interface NamedCell {
  name: string;
  values: readonly number[];
}

/** The level of both tests. */
const LEVEL = 0.05;

/**
 * Do all cells scatter as the pooled model says? With equal numbers of specimens Cochran's test (ISO 5725-2) on the
 * values in units of the model, otherwise Levene's on logarithms (Brown and Forsythe, JASA 69:364, 1974). A finding is a
 * flag of the campaign; nothing is left out.
 */
export function homogeneityFlags(cells: readonly NamedCell[], scatter: ScatterRow): Flag[] {
  const used = cells.filter(({ values }) => values.length > 1);
  if (used.length < 2 || scatter.a + scatter.b === 0) return [];
  const scaled = used.map(({ values }) => {
    const unit = scatter.a + scatter.b * Math.abs(mean(values));
    return values.map((value) => value / unit);
  });
  if (scaled.every((values) => values.length === scaled[0]!.length)) {
    const { statistic, critical, largest, differs } = cochranTest(scaled, { significance: LEVEL });
    if (!differs) return [];
    const sentence = `The specimens of ${used[largest]!.name} scatter more than the pooled scatter explains (Cochran's C ${statistic.toFixed(2)}, limit ${critical.toFixed(2)}).`;
    return [flag("scatter-differs", sentence, scatter.window)];
  }
  // Logarithms compare relative scatter: right where that is what was pooled.
  const positive = scatter.model === "proportional" && used.every(({ values }) => values.every((value) => value > 0));
  const test = leveneTest(positive ? used.map(({ values }) => values) : scaled, { logarithms: positive });
  if (test === null || test.p >= LEVEL) return [];
  const sentence = `The cells do not scatter alike (Levene's test on ${positive ? "logarithms" : "scaled values"}, p = ${test.p.toPrecision(2)}).`;
  return [flag("scatter-differs", sentence, scatter.window)];
}
