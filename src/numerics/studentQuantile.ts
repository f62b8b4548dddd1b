import { incompleteBeta } from "./incompleteBeta.ts";
import { logGamma } from "./logGamma.ts";
import { normalQuantile } from "./normalQuantile.ts";

/**
 * Quantile of Student's t distribution: `studentQuantile(0.975, df)` is the factor of a two-sided 95 % interval.
 *
 * Solves the distribution function (NIST Digital Library of Mathematical Functions, 8.17; incomplete beta function)
 * by Newton's method inside a bracket; from 10,000 degrees of freedom on the expansion about the normal quantile
 * (Abramowitz and Stegun, Handbook of Mathematical Functions, 26.7.5). Relative error below 1e-11.
 *
 * @param p Probability, strictly between 0 and 1.
 * @param df Degrees of freedom, positive, not necessarily whole (Welch–Satterthwaite); Infinity gives the normal quantile.
 * @throws {RangeError} p outside 0…1 or df not positive.
 * Example: `studentQuantile(0.975, 2)` is `4.302652729749464`.
 */
export function studentQuantile(p: number, df: number): number {
  if (!(p > 0 && p < 1)) throw new RangeError(`Give a probability between 0 and 1, not ${p}`);
  if (!(df > 0)) throw new RangeError(`Give positive degrees of freedom, not ${df}`);
  if (p === 0.5) return 0;
  if (df >= 1e4) return nearNormal(normalQuantile(p), df);
  return p < 0.5 ? -upperQuantile(p, 0.5 - p, df) : upperQuantile(1 - p, p - 0.5, df);
}

/** The positive t beyond which `tail` lies, between which and zero `middle` lies; tail + middle = ½. */
function upperQuantile(tail: number, middle: number, df: number): number {
  const density = densityOf(df);
  // The smaller of the two probabilities carries the digits: each is solved where it is not a difference.
  const byMiddle = middle < 0.25;
  /** How far t still is from the quantile, by one Newton step (on the logarithm in the tail). */
  const missing = (t: number): number => {
    const square = t * t;
    if (byMiddle) {
      const inside =
        0.5 * incompleteBeta(square / (df + square), { a: 0.5, b: df / 2, complement: df / (df + square) });
      return (middle - inside) / density(t);
    }
    const outside = 0.5 * incompleteBeta(df / (df + square), { a: df / 2, b: 0.5, complement: square / (df + square) });
    return (Math.log(outside / tail) * outside) / density(t);
  };

  let low = 0;
  let high = 1;
  while (missing(high) > 0) {
    low = high;
    high *= 2;
    if (high > 1e150) return Number.POSITIVE_INFINITY;
  }
  let t = high;
  for (let step = 0; step < 200; step++) {
    const move = missing(t);
    if (move > 0) low = t;
    else high = t;
    const newton = t + move;
    const next = newton > low && newton < high ? newton : 0.5 * (low + high);
    if (Math.abs(next - t) <= 1e-15 * next) return next;
    t = next;
  }
  return t;
}

/** Density of Student's t with the constant worked out once. */
function densityOf(df: number): (t: number) => number {
  const constant = logGamma((df + 1) / 2) - logGamma(df / 2) - 0.5 * Math.log(df * Math.PI);
  return (t) => Math.exp(constant - ((df + 1) / 2) * Math.log1p((t * t) / df));
}

function nearNormal(z: number, df: number): number {
  if (df === Number.POSITIVE_INFINITY) return z;
  const square = z * z;
  const first = (z * (square + 1)) / 4;
  const second = (z * ((5 * square + 16) * square + 3)) / 96;
  const third = (z * (((3 * square + 19) * square + 17) * square - 15)) / 384;
  return z + (first + (second + third / df) / df) / df;
}
