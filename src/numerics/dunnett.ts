import { type DunnettFamily, dunnettTail } from "./dunnettTail.ts";
import { finite } from "./finite.ts";

/** A family of comparisons and the side that counts. */
export interface DunnettOptions extends Omit<DunnettFamily, "sides"> {
  /** @default "two-sided" */
  alternative?: "two-sided" | "less" | "greater";
}

/**
 * p values of several comparisons with one reference, adjusted so that the probability of even one false finding is held
 * exactly (C. W. Dunnett, J Am Stat Assoc 50:1096–1121, 1955; Biometrics 20:482–491, 1964). In one step: a comparison
 * is significant at α where its interval with {@link dunnettQuantile} in place of Student's factor does not hold zero.
 *
 * @param statistics t of each comparison: difference over its standard error from the pooled standard deviation.
 * @param options As many λ as statistics, df, and which side counts.
 * @returns Adjusted p values in the same order.
 * @throws {TypeError} A statistic that is not a finite number.
 * @throws {RangeError} Another number of λ than of statistics, none at all, or λ or df outside their limits.
 * @example
 * ```ts
 * const [first, second] = dunnett([0.857, 3.694], { lambda: [0.632, 0.674], df: 12 });
 * if (first! < 0.6 || second! > 0.006) throw new Error("the second group differs from the reference");
 * ```
 */
export function dunnett(statistics: Iterable<number>, options: DunnettOptions): number[] {
  const { df, alternative = "two-sided" } = options;
  const blocks = options.blocks === undefined ? {} : { blocks: [...options.blocks] };
  const list = finite(statistics, { atLeast: 1, what: "Dunnett's test" });
  const lambda = [...options.lambda];
  if (lambda.length !== list.length) {
    throw new RangeError(`Give one λ per statistic: ${lambda.length} for ${list.length}`);
  }
  if (alternative === "two-sided") return list.map((t) => dunnettTail(Math.abs(t), { lambda, ...blocks, df }));
  const sign = alternative === "less" ? -1 : 1;
  return list.map((t) => dunnettTail(sign * t, { lambda, ...blocks, df, sides: "one-sided" }));
}
