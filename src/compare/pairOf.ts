import type { NoVerdict } from "../campaign/decisions.ts";
import type { Term } from "../measured.ts";
import { effectiveDegrees } from "../numerics/effectiveDegrees.ts";
import { mean } from "../numerics/mean.ts";
import { standardDeviation } from "../numerics/standardDeviation.ts";
import { combineTerms } from "../phases/combineTerms.ts";
import { commonSpecimens } from "./commonSpecimens.ts";
import type { ComparedCell, ScatterChoice } from "./types.ts";

/** Standard error with its degrees of freedom. */
export interface ErrorOf {
  se: number;
  df: number;
}

/** Two cells, ready to be compared: their values and the error of any value − factor · reference. */
export interface Pair {
  value: number;
  reference: number;
  /** Specimens, of either cell, that take part. */
  n: number;
  n_reference: number;
  /** Error of value − factor · reference. */
  of(factor: number): ErrorOf;
  /** Standard uncertainty of each alone, and what they have in common. */
  u: number;
  u_reference: number;
  covariance: number;
  /** Share of the error of the difference that comes from the reference's own specimens: the λ of Dunnett's test. */
  lambda: number;
  /** Whether the ratio may be taken on the scale of logarithms: scatter in proportion to the value. */
  proportional: boolean;
  by: "pooled" | "welch" | "paired";
  /** Degrees of freedom of the scatter alone. */
  scatter_df: number;
}

/** More degrees of freedom change nothing, and infinity cannot be written. */
export const MOST_DF = 1e6;

/** Fewest specimens per cell for a test on their own scatter: two give one degree of freedom, no basis. */
const FEWEST = 3;

/**
 * The error of a difference of two cells: u² = Σ(c_A − c_B)²u_k² + s_A²/n_A + s_B²/n_B. What both share (a balance's
 * temperature) counts only by how differently it acts on the two; s is the scatter pooled over all cells at the level of each
 * (JCGM 100:2008, 5.2.2; degrees of freedom by annex G.4), or by choice each cell's own (Welch).
 *
 * The error of a mean is never below what the noise, the ignition and the residue of its runs give it: a proportional scatter vanishes
 * with the index, the noise of the balance does not.
 *
 * Cells that have named specimens in common (one prism at two ages) are compared by the differences of these specimens.
 *
 * @param options `scatter`: decided before looking, for all comparisons alike. @default "pooled"
 * @returns The reason where there is no verdict to be had.
 */
export function pairOf(
  cell: ComparedCell,
  reference: ComparedCell | null,
  options: { scatter?: ScatterChoice } = {},
): Pair | NoVerdict {
  const { scatter = "pooled" } = options;
  if (cell.value === null) return "no-value";
  if (reference === null || reference.value === null) return "no-reference";
  if (cell.specimens.length === 1 || reference.specimens.length === 1) return "one-specimen";
  const common = commonSpecimens(cell, reference);
  const random =
    common.length > 0
      ? paired(common, [cell, reference])
      : scatter === "welch"
        ? separate(cell, reference)
        : pooled(cell, reference);
  if (typeof random === "string") return random;
  const { values, errors, of: randomOf, scatter_df, proportional, by } = random;
  const shared = combineTerms(cell.shared);
  const sharedReference = combineTerms(reference.shared);
  const of = (factor: number): ErrorOf => {
    const own = randomOf(factor);
    const common = combineTerms(lessTerms(cell.shared, reference.shared, factor));
    const se = Math.hypot(own.se, common);
    if (se === 0) return { se, df: own.df };
    const parts = [
      { u: own.se, df: own.df },
      { u: common, df: Number.POSITIVE_INFINITY },
    ];
    return { se, df: Math.min(effectiveDegrees(parts), MOST_DF) };
  };
  const u = Math.hypot(errors[0], shared);
  const u_reference = Math.hypot(errors[1], sharedReference);
  const { se } = of(1);
  if (se === 0) return "no-scatter";
  return {
    value: values[0],
    reference: values[1],
    n: random.n[0],
    n_reference: random.n[1],
    of,
    u,
    u_reference,
    // From the three variances; beyond the product of the uncertainties only by rounding.
    covariance: clamp((u ** 2 + u_reference ** 2 - se ** 2) / 2, u * u_reference),
    lambda: by === "pooled" ? errors[1] / se : 0,
    proportional,
    by,
    scatter_df,
  };
}

/** What specimens alone contribute. */
interface Random {
  values: [number, number];
  n: [number, number];
  /** Standard error of each mean. */
  errors: [number, number];
  of(factor: number): ErrorOf;
  scatter_df: number;
  proportional: boolean;
  by: Pair["by"];
}

function pooled(cell: ComparedCell, reference: ComparedCell): Random | NoVerdict {
  if (cell.scatter === null || reference.scatter === null) return "no-scatter";
  const errorOf = ({ value, specimens, scatter, floor = 0 }: ComparedCell): number =>
    Math.max(floor, (scatter!.a + scatter!.b * Math.abs(value!)) / Math.sqrt(specimens.length));
  const errors: [number, number] = [errorOf(cell), errorOf(reference)];
  const { df, model } = cell.scatter;
  return {
    values: [cell.value!, reference.value!],
    n: [cell.specimens.length, reference.specimens.length],
    errors,
    of: (factor) => ({ se: Math.hypot(errors[0], factor * errors[1]), df }),
    scatter_df: df,
    proportional: model === "proportional",
    by: "pooled",
  };
}

/** Each cell by its own scatter (B. L. Welch, Biometrika 34:28, 1947). */
function separate(cell: ComparedCell, reference: ComparedCell): Random | NoVerdict {
  const n: [number, number] = [cell.specimens.length, reference.specimens.length];
  if (Math.min(...n) < FEWEST) return "too-few-specimens";
  const errorOf = ({ specimens, floor = 0 }: ComparedCell): number =>
    Math.max(floor, standardDeviation(specimens.map(({ value }) => value)) / Math.sqrt(specimens.length));
  const errors: [number, number] = [errorOf(cell), errorOf(reference)];
  const of = (factor: number): ErrorOf => {
    const parts = errors.map((error, i) => ({ u: i === 0 ? error : Math.abs(factor) * error, df: n[i]! - 1 }));
    return { se: Math.hypot(...parts.map(({ u }) => u)), df: effectiveDegrees(parts) };
  };
  const values: [number, number] = [cell.value!, reference.value!];
  return { values, n, errors, of, scatter_df: of(1).df, proportional: true, by: "welch" };
}

function paired(common: readonly [number, number][], cells: [ComparedCell, ComparedCell]): Random | NoVerdict {
  const n = common.length;
  if (n < FEWEST) return "too-few-specimens";
  // That of all specimens of the cell, for the mean of those in common.
  const [floor, floorReference] = cells.map(
    ({ specimens, floor: own = 0 }) => own * Math.sqrt(specimens.length / n),
  ) as [number, number];
  const deviation = (values: readonly number[]): number => standardDeviation(values) / Math.sqrt(n);
  const first = common.map(([value]) => value);
  const second = common.map(([, value]) => value);
  return {
    values: [mean(first), mean(second)],
    n: [n, n],
    errors: [Math.max(floor, deviation(first)), Math.max(floorReference, deviation(second))],
    of: (factor) => {
      const least = Math.hypot(floor, factor * floorReference);
      return { se: Math.max(least, deviation(common.map(([a, b]) => a - factor * b))), df: n - 1 };
    },
    scatter_df: n - 1,
    proportional: true,
    by: "paired",
  };
}

/** Signed terms of value − factor · reference: equal keys are the same error. */
function lessTerms(terms: readonly Term[], others: readonly Term[], factor: number): Term[] {
  const byKey = new Map(terms.map((term) => [term.key, term]));
  for (const { cause, effect, key } of others) {
    byKey.set(key, { cause, effect: (byKey.get(key)?.effect ?? 0) - factor * effect, key });
  }
  return [...byKey.values()];
}

function clamp(value: number, limit: number): number {
  return Math.max(-limit, Math.min(limit, value));
}
