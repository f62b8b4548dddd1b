/**
 * Natural logarithm of the gamma function for a positive argument.
 *
 * Stirling's series (NIST Digital Library of Mathematical Functions, 5.11.1) after the argument has been raised to 12
 * or more by Γ(x + 1) = x·Γ(x); the first term left out is below 1e-17 there.
 *
 * @throws {RangeError} x not positive.
 */
export function logGamma(x: number): number {
  if (!(x > 0)) throw new RangeError(`The logarithm of the gamma function needs a positive number, not ${x}`);
  let raised = x;
  let product = 1;
  while (raised < 12) {
    product *= raised;
    raised += 1;
  }
  const inverse = 1 / raised;
  const square = inverse * inverse;
  let series = 0;
  for (let k = stirling.length - 1; k >= 0; k--) series = series * square + stirling[k]!;
  return (raised - 0.5) * Math.log(raised) - raised + halfLogTwoPi + series * inverse - Math.log(product);
}

const halfLogTwoPi = 0.5 * Math.log(2 * Math.PI);

/** B₂ₖ/(2k(2k−1)) with the Bernoulli numbers B₂ₖ, k = 1…8. */
const stirling = [1 / 12, -1 / 360, 1 / 1260, -1 / 1680, 1 / 1188, -691 / 360360, 1 / 156, -3617 / 122400];
