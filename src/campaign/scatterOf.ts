import { mean } from "../numerics/mean.ts";
import { standardDeviation } from "../numerics/standardDeviation.ts";

/** How specimens of one cell scatter: s = a + b·|index|, over all cells of a campaign. */
export interface Scatter {
  /** `proportional`: a = 0; `linear`: both; `constant`: b = 0. */
  model: "proportional" | "linear" | "constant";
  /** g per 100 g. */
  a: number;
  /** Share of the index. */
  b: number;
  /** Degrees of freedom, Σ(n − 1). */
  df: number;
}

/** χ²(1) at 95 %: the constant part is kept where it raises twice the log likelihood by more (Wilks, Ann Math Stat 9:60, 1938). */
const WORTH = 3.841459;

/**
 * Pooled scatter of specimens about their cell's mean. One cell of two or three specimens knows its own standard
 * deviation hardly at all; all cells together know it well. Proportional scatter (s = b·|index|) is the rule, since
 * hydrates are made and weighed in proportion; a constant part is added where a likelihood-ratio test asks for it
 * (small indices keep the scatter of the balance).
 *
 * @param cells Means of the specimens of every cell, g per 100 g.
 * @returns null where no cell has two specimens.
 */
export function scatterOf(cells: readonly (readonly number[])[]): Scatter | null {
  const groups = cells
    .filter((values) => values.length > 1)
    .map((values) => ({
      df: values.length - 1,
      size: Math.abs(mean(values)),
      variance: standardDeviation(values) ** 2,
    }));
  const df = groups.reduce((sum, group) => sum + group.df, 0);
  if (df === 0) return null;
  const pooled = groups.reduce((sum, group) => sum + group.df * group.variance, 0) / df;
  if (pooled === 0) return { model: "proportional", a: 0, b: 0, df };

  // One cell cannot tell a proportional scatter from a constant one: near zero the first would be absurd elsewhere.
  const [only] = groups;
  if (groups.length === 1 && only && only.size < 5 * Math.sqrt(only.variance)) {
    return { model: "constant", a: Math.sqrt(pooled), b: 0, df };
  }

  // For a given ratio r = a/b the best b has a closed form; the likelihood is searched along r alone.
  const along = (ratio: number): { b: number; likelihood: number } => {
    const square = groups.reduce((sum, g) => sum + (g.df * g.variance) / (ratio + g.size) ** 2, 0) / df;
    const likelihood = groups.reduce((sum, g) => sum - g.df * Math.log(Math.sqrt(square) * (ratio + g.size)), 0);
    return { b: Math.sqrt(square), likelihood };
  };
  const largest = Math.max(...groups.map((g) => g.size));
  let best = { ratio: 0, ...along(0) };
  if (!Number.isFinite(best.likelihood)) best = { ratio: 0, b: Number.NaN, likelihood: Number.NEGATIVE_INFINITY };
  const proportional = best;
  // From a thousandth of the largest index, where the constant part is nothing, to a hundred times it, where it is all.
  for (let exponent = -3; exponent <= 2; exponent += 0.02) {
    const ratio = largest * 10 ** exponent;
    const here = along(ratio);
    if (here.likelihood > best.likelihood) best = { ratio, ...here };
  }
  const constant = -df * Math.log(Math.sqrt(pooled));
  if (2 * (Math.max(best.likelihood, constant) - proportional.likelihood) <= WORTH) {
    return { model: "proportional", a: 0, b: proportional.b, df };
  }
  // The proportional part has to be worth its place too.
  if (2 * (best.likelihood - constant) <= WORTH) return { model: "constant", a: Math.sqrt(pooled), b: 0, df };
  return { model: "linear", a: best.ratio * best.b, b: best.b, df };
}
