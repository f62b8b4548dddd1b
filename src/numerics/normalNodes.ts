import type { Nodes } from "./scatterNodes.ts";

/**
 * Where to evaluate a function for its mean over the standard normal distribution: the trapezoidal rule from −8.5 to 8.5
 * (L. N. Trefethen and J. A. C. Weideman, SIAM Review 56:385–458, 2014), beyond which lies less than 2e-17.
 *
 * @param step Distance of the nodes, 0…0.5: a half is enough for a constant, narrow functions need less.
 * @throws {RangeError} A step outside its limits.
 * @example
 * ```ts
 * const { at, weight } = normalNodes(0.5);
 * const variance = at.reduce((sum, z, i) => sum + weight[i]! * z * z, 0);
 * if (Math.abs(variance - 1) > 1e-12) throw new Error("the variance is one");
 * ```
 */
export function normalNodes(step: number): Nodes {
  if (!(step > 0 && step <= 0.5)) throw new RangeError(`Give a step above 0 and up to 0.5, not ${step}`);
  const half = Math.ceil(8.5 / step);
  const at = Float64Array.from({ length: 2 * half + 1 }, (_, i) => (i - half) * step);
  const weight = at.map((z) => Math.exp(-0.5 * z * z));
  const total = weight.reduce((sum, value) => sum + value, 0);
  return { at, weight: weight.map((value) => value / total) };
}
