import { effectiveDegrees } from "./effectiveDegrees.ts";
import type { Missing } from "./missing.ts";
import { powerOfDifference } from "./powerOfDifference.ts";
import { powerOfEquivalence } from "./powerOfEquivalence.ts";

/** What replicates are wanted for: to find a true difference, or to show that one lies within a margin. */
export type Aim = { difference: number } | { margin: number; difference?: number };

/** What is known before the study. */
export interface ReplicatesOptions {
  /** Standard deviation of one specimen, unit of the difference. */
  deviation: number;
  /** Cells of n specimens each whose scatter is pooled, at least the two that are compared. @default 2 */
  cells?: number;
  /** Standard uncertainty of the difference that replicates do not reduce, such as a calibration. @default 0 */
  shared?: number;
  /** @default 0.8 */
  power?: number;
  /** Of the two-sided test of a difference, or of each one-sided test of a margin. @default 0.05 */
  alpha?: number;
  /** Critical value of |t| of the test of a difference for these degrees of freedom, for instance Dunnett's. @default Student's */
  critical?: (df: number) => number;
  /** Most specimens per cell that would be made. @default 1000 */
  largest?: number;
}

/** Specimens per cell and the power they give. */
export interface Replicates {
  n: number;
  power: number;
}

/**
 * How many specimens each cell needs so that a comparison of two cells finds a true difference, or shows that the
 * difference lies within a margin, with the power asked for: the smallest n ≥ 2 by the exact power of the t tests
 * ({@link powerOfDifference}, {@link powerOfEquivalence}), u² = 2s²/n + shared² with cells·(n − 1) degrees of freedom,
 * by Welch–Satterthwaite where something is shared.
 *
 * @returns `not-attainable` where even the largest number does not reach the power, or no number can.
 * @throws {RangeError} A difference of zero to be found, or a number outside its limits.
 * @example
 * ```ts
 * const plan = replicatesFor({ difference: 2 }, { deviation: 1 });
 * if ("missing" in plan || plan.n !== 6) throw new Error("six specimens in each cell show two standard deviations");
 * ```
 */
export function replicatesFor(aim: Aim, options: ReplicatesOptions): Replicates | Missing {
  const { deviation, cells = 2, shared = 0, power: wanted = 0.8, alpha = 0.05, critical, largest = 1000 } = options;
  if (!(deviation > 0)) throw new RangeError(`Give a positive standard deviation, not ${deviation}`);
  if (!(Number.isInteger(cells) && cells >= 2)) throw new RangeError(`Give two cells or more, not ${cells}`);
  if (!(shared >= 0)) throw new RangeError(`Give a shared uncertainty of zero or more, not ${shared}`);
  if (!(wanted > 0 && wanted < 1)) throw new RangeError(`Give a power between 0 and 1, not ${wanted}`);
  if (!(Number.isInteger(largest) && largest >= 2)) {
    throw new RangeError(`Give two or more as the largest number of specimens, not ${largest}`);
  }
  if (!("margin" in aim) && !(Math.abs(aim.difference) > 0)) {
    throw new RangeError(`Give a difference other than zero to be found, not ${aim.difference}`);
  }
  const powerWith = (n: number): number => {
    const random = deviation * Math.sqrt(2 / n);
    const df = effectiveDegrees([
      { u: random, df: cells * (n - 1) },
      { u: shared, df: Number.POSITIVE_INFINITY },
    ]);
    const se = Math.hypot(random, shared);
    return "margin" in aim
      ? powerOfEquivalence(aim.margin, { se, df, alpha, difference: aim.difference ?? 0 })
      : powerOfDifference(aim.difference, { se, df, alpha, ...(critical && { critical: critical(df) }) });
  };

  // Power grows with n: first doubled until it is enough, then halved back to the smallest n.
  let enough = 2;
  while (powerWith(enough) < wanted) {
    if (enough === largest) return { missing: "not-attainable" };
    enough = Math.min(2 * enough, largest);
  }
  let tooFew = enough === 2 ? 1 : Math.floor(enough / 2);
  while (enough - tooFew > 1) {
    const middle = (enough + tooFew) >> 1;
    if (powerWith(middle) < wanted) tooFew = middle;
    else enough = middle;
  }
  return { n: enough, power: powerWith(enough) };
}
