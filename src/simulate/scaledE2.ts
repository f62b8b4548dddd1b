/**
 * eˣ·E₂(x), the generalised exponential integral of order two without its steep factor, for x > 0.
 *
 * Above 1 the continued fraction (NIST Digital Library of Mathematical Functions, 8.19.17) by Lentz's method, below
 * the series of E₁ (6.6.2) and E₂ = e⁻ˣ − x·E₁ (8.19.12). Relative error below 1e-14.
 *
 * @throws {RangeError} x not positive.
 */
export function scaledE2(x: number): number {
  if (!(x > 0)) throw new RangeError(`The exponential integral needs a positive argument, not ${x}`);
  return x > 1 ? byFraction(x) : 1 - x * Math.exp(x) * firstIntegral(x);
}

function byFraction(x: number): number {
  // Even part of the fraction: 1/(x+2 − 1·2/(x+4 − 2·3/(x+6 − …))).
  let b = x + 2;
  let c = Number.MAX_VALUE;
  let d = 1 / b;
  let value = d;
  for (let i = 1; i <= 500; i++) {
    const a = -i * (i + 1);
    b += 2;
    d = 1 / (a * d + b);
    c = b + a / c;
    const factor = c * d;
    value *= factor;
    if (Math.abs(factor - 1) < 1e-16) break;
  }
  return value;
}

/** E₁(x) for 0 < x ≤ 1. */
function firstIntegral(x: number): number {
  const eulerGamma = 0.5772156649015329;
  let sum = -eulerGamma - Math.log(x);
  let term = -1;
  for (let k = 1; k <= 40; k++) {
    term *= -x / k;
    sum += term / k;
  }
  return sum;
}
