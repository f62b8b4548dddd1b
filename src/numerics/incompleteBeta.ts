import { logGamma } from "./logGamma.ts";

/** Parameters of {@link incompleteBeta}. */
export interface IncompleteBetaOptions {
  a: number;
  b: number;
  /** 1 − x, where the caller knows it better than by subtraction. @default 1 - x */
  complement?: number;
}

/**
 * Regularised incomplete beta function I_x(a, b): the distribution functions of Student's t and of F are built on it.
 *
 * Continued fraction (NIST Digital Library of Mathematical Functions, 8.17.22) by Lentz's method in the form of
 * Thompson and Barnett (J Comput Phys 64:490–509, 1986), on the side of the mean where it converges fast.
 *
 * @param x 0…1.
 * @throws {RangeError} x outside 0…1, or a or b not positive.
 */
export function incompleteBeta(x: number, options: IncompleteBetaOptions): number {
  const { a, b, complement = 1 - x } = options;
  if (!(x >= 0 && x <= 1)) throw new RangeError(`The incomplete beta function needs x between 0 and 1, not ${x}`);
  if (!(a > 0 && b > 0)) throw new RangeError(`The incomplete beta function needs positive a and b, not ${a} and ${b}`);
  if (x === 0) return 0;
  if (complement === 0) return 1;
  const logFront = a * Math.log(x) + b * Math.log(complement) + logGamma(a + b) - logGamma(a) - logGamma(b);
  const front = Math.exp(logFront);
  return x < (a + 1) / (a + b + 2) ? (front * fraction(x, a, b)) / a : 1 - (front * fraction(complement, b, a)) / b;
}

/** The continued fraction; converges in O(√max(a, b)) steps. */
function fraction(x: number, a: number, b: number): number {
  const tiny = 1e-300;
  const awayFromZero = (value: number) => (Math.abs(value) < tiny ? tiny : value);
  let c = 1;
  let d = 1 / awayFromZero(1 - ((a + b) * x) / (a + 1));
  let value = d;
  for (let m = 1; m <= 10_000; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / awayFromZero(1 + even * d);
    c = awayFromZero(1 + even / c);
    value *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / awayFromZero(1 + odd * d);
    c = awayFromZero(1 + odd / c);
    value *= d * c;
    if (Math.abs(d * c - 1) < 2e-16) return value;
  }
  return value;
}
