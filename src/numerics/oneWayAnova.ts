import { fsum } from "d3-array";
import { finite } from "./finite.ts";
import { fProbability } from "./fProbability.ts";

/** One line of an analysis of variance. */
export interface AnovaLine {
  df: number;
  sumOfSquares: number;
  meanSquare: number;
}

/** A one-way analysis of variance. */
export interface Anova {
  between: AnovaLine;
  within: AnovaLine;
  /** Mean square between over mean square within; infinite where values differ between groups only, 0 where none differs. */
  f: number;
  /** Probability of such an F or a larger one if all groups have one mean. */
  p: number;
  /** √ of the mean square within: the scatter inside the groups, unit of the values. */
  residualDeviation: number;
}

/**
 * One-way analysis of variance: do groups differ more than their own scatter explains?
 *
 * Squares of deviations from the means are added up, never differences of squares, and all values are first counted
 * from one of them: that subtraction is exact for values of like size (P. H. Sterbenz, Floating-Point Computation,
 * 1974), so equal leading digits cost nothing beyond what the values lost when they were written in binary.
 *
 * @param groups Values of each group; a group of one has a mean but no scatter.
 * @throws {RangeError} Fewer than two groups, an empty group, or no group with two values.
 * @throws {TypeError} A value that is not a finite number.
 *
 * Example: `oneWayAnova([[12.1, 12.5], [20.0, 20.4, 20.2]]).f` is `1404.2…`.
 */
export function oneWayAnova(groups: Iterable<Iterable<number>>): Anova {
  const lists = Array.from(groups, (group) =>
    finite(group, { atLeast: 1, what: "a group of an analysis of variance" }),
  );
  if (lists.length < 2) {
    throw new RangeError(`Give at least two groups for an analysis of variance, not ${lists.length}`);
  }
  const origin = lists[0]![0]!;
  const counted = lists.map((list) => list.map((value) => value - origin));
  const n = lists.reduce((sum, list) => sum + list.length, 0);
  const dfWithin = n - lists.length;
  if (dfWithin === 0) {
    throw new RangeError("Give at least one group with two values: without one there is no scatter to compare with");
  }
  const grand = fsum(counted.flat()) / n;
  const means = counted.map((list) => fsum(list) / list.length);
  const between = lineOf(
    counted.map((list, i) => list.length * (means[i]! - grand) ** 2),
    lists.length - 1,
  );
  const within = lineOf(
    counted.flatMap((list, i) => list.map((value) => (value - means[i]!) ** 2)),
    dfWithin,
  );
  const f = between.meanSquare === 0 ? 0 : between.meanSquare / within.meanSquare;
  const p = fProbability(f, { numerator: between.df, denominator: within.df });
  return { between, within, f, p, residualDeviation: Math.sqrt(within.meanSquare) };
}

function lineOf(squares: number[], df: number): AnovaLine {
  const sumOfSquares = fsum(squares);
  return { df, sumOfSquares, meanSquare: sumOfSquares / df };
}
