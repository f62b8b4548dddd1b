import { type Flag, flag } from "../flags.ts";
import { mean } from "../numerics/mean.ts";
import { studentQuantile } from "../numerics/studentQuantile.ts";
import type { Specimen } from "./specimensOf.ts";
import type { ScatterRow } from "./types.ts";

/**
 * Specimens that lie further from the mean of their cell than the pooled scatter of the campaign explains: the residual
 * |x − x̄|/(s√(1 − 1/n)) is turned into a t value of ν − 1 degrees of freedom (Thompson, Ann Math Stat 6:214, 1935) and
 * judged at 5 % over all specimens that were pooled (Bonferroni). Flagged, never dropped.
 */
export function outlierFlags(
  specimens: readonly Specimen[],
  options: { window: string; scatter: ScatterRow | null },
): Flag[] {
  const { window, scatter } = options;
  const n = specimens.length;
  // Of two specimens both are equally far out by construction: which one is odd cannot be said.
  if (n < 3 || scatter === null || scatter.df < 3) return [];
  const centre = mean(specimens.map(({ value }) => value));
  const s = scatter.a + scatter.b * Math.abs(centre);
  if (s === 0) return [];
  // Σ(n − 1) specimens are free; Bonferroni over the pooled specimens, of which there are at most twice as many.
  const limit = studentQuantile(1 - 0.025 / (2 * scatter.df), scatter.df - 1);
  return specimens.flatMap(({ specimen, value }) => {
    const r = Math.abs(value - centre) / (s * Math.sqrt(1 - 1 / n));
    const t = r * r >= scatter.df ? Number.POSITIVE_INFINITY : r * Math.sqrt((scatter.df - 1) / (scatter.df - r * r));
    if (t <= limit) return [];
    const sentence = `Specimen ${specimen} (${value.toFixed(2)}) lies ${r.toFixed(1)} pooled standard deviations from the mean ${centre.toFixed(2)} of its cell.`;
    return [flag("outlying-specimen", sentence, window)];
  });
}
