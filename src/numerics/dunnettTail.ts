import { normalCdf } from "./normalCdf.ts";
import { normalNodes } from "./normalNodes.ts";
import { scatterNodes } from "./scatterNodes.ts";

/** A family of comparisons. */
export interface DunnettFamily {
  /**
   * One number per comparison, between −1 and 1, so that the product of two is the correlation of their differences: from
   * {@link dunnettLambda} for one reference, all √½ where all groups have one size, 0 for unrelated differences.
   */
  lambda: Iterable<number>;
  /**
   * What each comparison is held against, one name per λ: comparisons of different blocks have only the estimate of scatter
   * in common. @default one block
   */
  blocks?: Iterable<string>;
  /** Degrees of freedom of the common standard deviation; Infinity where it is known. */
  df: number;
  /** Does a difference count on either side, or on one? @default "two-sided" */
  sides?: "two-sided" | "one-sided";
}

/**
 * Probability that the largest of several t statistics exceeds q if there is no difference at all: |t| for two sides, t
 * itself for one. The statistics have one estimate of scatter in common, and correlations of product form, as
 * comparisons with one reference have (C. W. Dunnett, J Am Stat Assoc 50:1096–1121, 1955; Biometrics 20:482–491, 1964).
 *
 * Given a normal variable common to all and the ratio u of estimated to true standard deviation, the statistics are
 * independent; the product of their probabilities is averaged over both, by quadrature. Absolute error below 1e-10; the tail
 * itself is summed, so that a small probability keeps its digits.
 *
 * @param q Critical value; not negative for two sides.
 * @throws {RangeError} No comparison, |λ| above 0.9999, df below 0.1, q NaN, or negative for two sides.
 * @example
 * ```ts
 * const p = dunnettTail(2.34, { lambda: Array(3).fill(Math.SQRT1_2), df: 10, sides: "one-sided" });
 * if (Math.abs(p - 0.05) > 0.0005) throw new Error("Dunnett 1955, table 1a: 2.34 for three groups and a reference");
 * ```
 */
export function dunnettTail(q: number, family: DunnettFamily): number {
  const { lambda, df, sides = "two-sided" } = family;
  const both = sides === "two-sided";
  if (Number.isNaN(q) || (both && q < 0))
    throw new RangeError(`Give a critical value${both ? " of zero or more" : ""}, not ${q}`);
  const blocks = blocksOf(lambda, family.blocks);
  if (q === Number.POSITIVE_INFINITY) return 0;
  if (q === Number.NEGATIVE_INFINITY) return 1;
  const steepness = Math.max(
    ...blocks.map((kinds) => kinds.reduce((sum, { slope, count }) => sum + count * slope * slope, 0)),
  );
  // The product of the functions grows off the real axis as exp((1 + Σslope²)y²/2): this step leaves less than 1e-15.
  const common = normalNodes(Math.min(0.5, 0.75 / Math.sqrt(1 + steepness)));
  const scatter = scatterNodes(df);
  let sum = 0;
  for (let i = 0; i < scatter.at.length; i++) {
    const reach = q * scatter.at[i]!;
    let logAllInside = 0;
    for (const kinds of blocks) {
      let beyond = 0;
      for (let j = 0; j < common.at.length; j++) {
        const z = common.at[j]!;
        let logInside = 0;
        for (const { root, slope, count } of kinds) {
          const centre = slope * z;
          const above = normalCdf(centre - reach / root);
          const outside = both ? above + normalCdf(-centre - reach / root) : above;
          logInside += count * Math.log1p(-Math.min(1, outside));
        }
        beyond -= common.weight[j]! * Math.expm1(logInside);
      }
      logAllInside += Math.log1p(-Math.min(1, beyond));
    }
    sum -= scatter.weight[i]! * Math.expm1(logAllInside);
  }
  return Math.min(1, Math.max(0, sum));
}

/** The comparisons of each block. */
function blocksOf(lambda: Iterable<number>, names: Iterable<string> | undefined): Kind[][] {
  if (names === undefined) return [kindsOf(lambda)];
  const list = [...lambda];
  const blocks = [...names];
  if (blocks.length !== list.length) {
    throw new RangeError(`Give one block per comparison: ${blocks.length} for ${list.length}`);
  }
  if (list.length === 0) return [kindsOf(list)];
  return [...new Set(blocks)].map((name) => kindsOf(list.filter((_, i) => blocks[i] === name)));
}

/** Comparisons that behave alike. */
interface Kind {
  root: number;
  slope: number;
  count: number;
}

/** Comparisons of one λ behave alike: their part of the product is worked out once and raised to their number. */
function kindsOf(lambda: Iterable<number>): Kind[] {
  const counts = new Map<number, number>();
  for (const value of lambda) {
    if (!(Math.abs(value) <= 0.9999)) throw new RangeError(`Give λ between -0.9999 and 0.9999, not ${value}`);
    counts.set(value, (counts.get(value) ?? 0) + 1);
  }
  if (counts.size === 0) throw new RangeError("Give at least one comparison");
  return Array.from(counts, ([value, count]) => {
    const root = Math.sqrt((1 - value) * (1 + value));
    return { root, slope: value / root, count };
  });
}
