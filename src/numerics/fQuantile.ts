import { type FDegrees, fProbability } from "./fProbability.ts";
import { logGamma } from "./logGamma.ts";

/**
 * Quantile of the F distribution: the value that is exceeded with probability 1 − p.
 *
 * Solves {@link fProbability} by Newton's method on the logarithm of F inside a bracket. Relative error below 1e-11.
 *
 * @param p Probability, strictly between 0 and 1.
 * @throws {RangeError} p outside 0…1, or degrees of freedom not positive and finite.
 * Example: `fQuantile(0.95, { numerator: 2, denominator: 7 })` is `4.73741…`.
 */
export function fQuantile(p: number, df: FDegrees): number {
  if (!(p > 0 && p < 1)) throw new RangeError(`Give a probability between 0 and 1, not ${p}`);
  // The lower tail of F is the upper tail of 1/F: the smaller of the two carries the digits.
  if (p < 0.5) return 1 / upperQuantile(p, { numerator: df.denominator, denominator: df.numerator });
  return upperQuantile(1 - p, df);
}

/** The F beyond which `tail`, at most one half, lies. */
function upperQuantile(tail: number, df: FDegrees): number {
  let low = -1;
  let high = 1;
  while (fProbability(Math.exp(low), df) < tail) low *= 2;
  while (fProbability(Math.exp(high), df) > tail) {
    high *= 2;
    if (high > 700) return Number.POSITIVE_INFINITY;
  }
  const { numerator: m, denominator: n } = df;
  const constant = logGamma((m + n) / 2) - logGamma(m / 2) - logGamma(n / 2) + (m / 2) * Math.log(m / n);
  /** F times its density: the slope of the probability on the logarithm of F. */
  const slope = (f: number) => Math.exp(constant + (m / 2) * Math.log(f) - ((m + n) / 2) * Math.log1p((m / n) * f));
  let t = 0;
  for (let step = 0; step < 200; step++) {
    const f = Math.exp(t);
    const beyond = fProbability(f, df);
    if (beyond > tail) low = t;
    else high = t;
    const newton = t + (Math.log(beyond / tail) * beyond) / slope(f);
    const next = newton > low && newton < high ? newton : 0.5 * (low + high);
    if (Math.abs(next - t) <= 1e-15 * Math.max(1, Math.abs(next))) return Math.exp(next);
    t = next;
  }
  return Math.exp(t);
}
