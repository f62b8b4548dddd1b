import { median } from "d3-array";
import type { WidthScore } from "./scoreWidths.ts";

/** An excess of more than this many standard errors is no longer noise. */
const EXCESS = 2;

/**
 * The widest smoothing at which the residuals of the middle run still look like noise, for all widths up to it; the
 * narrowest where none does. One width for the campaign: the bias it brings is then the same for all.
 *
 * @param scores Of every run, for the same growing widths.
 * @returns `peak_bias_pct`: how much lower the sharpest peak stands than at the narrowest width, %, median over runs.
 * @throws RangeError without a run.
 */
export function chooseWidth(scores: readonly (readonly WidthScore[])[]): { width_C: number; peak_bias_pct: number } {
  const [first] = scores;
  if (!first || first.length === 0) throw new RangeError("Give the scores of at least one run and one width");
  let chosen = 0;
  for (let i = 1; i < first.length; i++) {
    const middle = median(scores, (run) => run[i]!.excess)!;
    if (middle > EXCESS) break;
    chosen = i;
  }
  const bias = median(scores, (run) => 100 * (1 - run[chosen]!.height / run[0]!.height))!;
  return { width_C: first[chosen]!.width_C, peak_bias_pct: Number(bias.toFixed(2)) };
}
