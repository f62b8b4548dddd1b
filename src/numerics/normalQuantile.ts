/**
 * Quantile of the standard normal distribution: the value that is exceeded with probability 1 − p.
 *
 * Algorithm AS 241 (M. J. Wichura, Applied Statistics 37:477–484, 1988), PPND16: relative error about 1e-16.
 *
 * @param p Probability, 0…1; 0 and 1 give −∞ and +∞.
 * @throws {RangeError} p outside 0…1.
 * Example: `normalQuantile(0.975)` is `1.959963984540054`.
 */
export function normalQuantile(p: number): number {
  if (!(p >= 0 && p <= 1)) throw new RangeError(`Give a probability between 0 and 1, not ${p}`);
  const centred = p - 0.5;
  if (Math.abs(centred) <= 0.425) {
    const r = 0.180625 - centred * centred;
    return (centred * polynomial(middleTop, r)) / polynomial(middleBottom, r);
  }
  const tail = centred < 0 ? p : 1 - p;
  const sign = centred < 0 ? -1 : 1;
  if (tail === 0) return sign * Number.POSITIVE_INFINITY;
  const r = Math.sqrt(-Math.log(tail));
  return (
    sign *
    (r <= 5
      ? polynomial(tailTop, r - 1.6) / polynomial(tailBottom, r - 1.6)
      : polynomial(farTop, r - 5) / polynomial(farBottom, r - 5))
  );
}

/** Value of a polynomial whose coefficients stand from the constant upwards (Horner). */
function polynomial(coefficients: readonly number[], x: number): number {
  let value = 0;
  for (let i = coefficients.length - 1; i >= 0; i--) value = value * x + coefficients[i]!;
  return value;
}

// Coefficients of the publication, rounded to double precision: |p − 0.5| ≤ 0.425, then the tails, then the far tails (p < e⁻²⁵).
const middleTop = [
  3.3871328727963665, 133.14166789178438, 1971.5909503065513, 13731.69376550946, 45921.95393154987, 67265.7709270087,
  33430.57558358813, 2509.0809287301227,
];
const middleBottom = [
  1, 42.31333070160091, 687.1870074920579, 5394.196021424751, 21213.794301586597, 39307.89580009271, 28729.085735721943,
  5226.495278852854,
];
const tailTop = [
  1.4234371107496835, 4.630337846156546, 5.769497221460691, 3.6478483247632045, 1.2704582524523684, 0.2417807251774506,
  0.022723844989269184, 0.0007745450142783414,
];
const tailBottom = [
  1, 2.053191626637759, 1.6763848301838038, 0.6897673349851, 0.14810397642748008, 0.015198666563616457,
  0.0005475938084995345, 1.0507500716444169e-9,
];
const farTop = [
  6.657904643501103, 5.463784911164114, 1.7848265399172913, 0.29656057182850487, 0.026532189526576124,
  0.0012426609473880784, 2.7115555687434876e-5, 2.0103343992922881e-7,
];
const farBottom = [
  1, 0.599832206555888, 0.1369298809227358, 0.014875361290850615, 0.0007868691311456133, 1.8463183175100548e-5,
  1.421511758316446e-7, 2.0442631033899397e-15,
];
