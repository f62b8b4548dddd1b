import { fsum } from "d3-array";
import { finite } from "./finite.ts";
import { mean } from "./mean.ts";

/** A standard deviation with its degrees of freedom. */
export interface PooledDeviation {
  /** Unit of the values; a fraction of the mean where `relative`. */
  deviation: number;
  df: number;
}

/**
 * Standard deviation inside groups, pooled over all of them: √(Σ(nᵢ−1)sᵢ²/Σ(nᵢ−1)). It is the residual standard deviation
 * of a one-way analysis of variance, and the best estimate of scatter where each group alone has few values.
 *
 * Groups of one value tell nothing about scatter and are left out; null where no group has two.
 *
 * @param groups Values of each group, for instance the indices of the specimens of each cell.
 * @param options `relative`: scatter as a fraction of each group's mean, for scatter that grows with the value. @default false
 * @throws {TypeError} A value that is not a finite number.
 * @throws {RangeError} `relative` with a group whose mean is zero.
 * Example: `pooledDeviation([[12.1, 12.5], [20.0, 20.4, 20.2]])` is `{ deviation: 0.23…, df: 3 }`.
 */
export function pooledDeviation(
  groups: Iterable<Iterable<number>>,
  options: { relative?: boolean } = {},
): PooledDeviation | null {
  const { relative = false } = options;
  const squares: number[] = [];
  let df = 0;
  for (const group of groups) {
    const list = finite(group, { atLeast: 0, what: "a pooled deviation" });
    if (list.length < 2) continue;
    const centre = mean(list);
    if (relative && centre === 0) throw new RangeError("A group with the mean zero has no relative scatter");
    const unit = relative ? centre : 1;
    squares.push(...list.map((value) => ((value - centre) / unit) ** 2));
    df += list.length - 1;
  }
  return df === 0 ? null : { deviation: Math.sqrt(fsum(squares) / df), df };
}
