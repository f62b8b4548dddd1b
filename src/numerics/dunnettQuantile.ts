import { type DunnettFamily, dunnettTail } from "./dunnettTail.ts";
import { findRoot } from "./findRoot.ts";
import { studentQuantile } from "./studentQuantile.ts";

/**
 * Critical value of several comparisons with one reference: the largest of the statistics exceeds it with probability α
 * if there is no difference at all, and all intervals of ± this many standard errors hold together with probability 1 − α
 * (C. W. Dunnett, J Am Stat Assoc 50:1096–1121, 1955; Biometrics 20:482–491, 1964). Relative error below 1e-9.
 *
 * @param alpha Probability of even one false finding, 1e-10…0.5.
 * @throws {RangeError} alpha, λ or df outside their limits, or no comparison.
 * @example
 * ```ts
 * const critical = dunnettQuantile(0.05, { lambda: Array(3).fill(Math.SQRT1_2), df: 10, sides: "one-sided" });
 * if (critical.toFixed(2) !== "2.34") throw new Error("Dunnett 1955, table 1a, three groups and a reference");
 * ```
 */
export function dunnettQuantile(alpha: number, family: DunnettFamily): number {
  if (!(alpha >= 1e-10 && alpha <= 0.5))
    throw new RangeError(`Give a significance between 1e-10 and 0.5, not ${alpha}`);
  const lambda = [...family.lambda];
  const blocks = family.blocks === undefined ? {} : { blocks: [...family.blocks] };
  const one = family.sides === "one-sided" ? alpha : alpha / 2;
  // One comparison alone needs less, comparisons without anything in common at most this much (Bonferroni).
  const low = studentQuantile(1 - one, family.df);
  const high = studentQuantile(1 - one / Math.max(1, lambda.length), family.df);
  const excess = (q: number) => Math.log(dunnettTail(q, { ...family, lambda, ...blocks }) / alpha);
  if (lambda.length <= 1) {
    dunnettTail(low, { ...family, lambda, ...blocks });
    return low;
  }
  return findRoot(excess, { low: Math.max(0, low) * (1 - 1e-9), high: high * (1 + 1e-9), tolerance: 1e-11 });
}
