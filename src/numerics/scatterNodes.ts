/** Points and weights of a mean: Σ weight·f(at) over a distribution; the weights add up to one. */
export interface Nodes {
  at: Float64Array;
  weight: Float64Array;
}

/**
 * Where to evaluate a function of u = s/σ, the ratio of an estimated standard deviation to the true one, for its mean
 * over all samples: u² is chi-square with df degrees of freedom over df.
 *
 * The trapezoidal rule in ln u, which for functions without a corner gains digits faster than any power of the step
 * (L. N. Trefethen and J. A. C. Weideman, SIAM Review 56:385–458, 2014). The density of ln u, u^df·exp(−df·u²/2), grows
 * off the real axis no faster than exp(df(1 − cos 2y)/2) at a distance y < π/4, a distribution function of δ = `sharpness`
 * in its argument by another exp(δ²y²/2): the step keeps the product below 1e-15 of the whole.
 *
 * @param df Degrees of freedom, positive; Infinity gives the one node u = 1.
 * @param options `sharpness`: how many standard deviations the function is shifted where u matters. @default 0
 * @throws {RangeError} df not positive, or below 0.1, where the distribution of u is too wide for any use.
 * @example
 * ```ts
 * const { at, weight } = scatterNodes(4);
 * const meanSquare = at.reduce((sum, u, i) => sum + weight[i]! * u * u, 0);
 * if (Math.abs(meanSquare - 1) > 1e-12) throw new Error("s² is right on average");
 * ```
 */
export function scatterNodes(df: number, options: { sharpness?: number } = {}): Nodes {
  const { sharpness = 0 } = options;
  if (!(df >= 0.1)) throw new RangeError(`Give degrees of freedom of 0.1 or more, not ${df}`);
  if (df === Number.POSITIVE_INFINITY) return { at: Float64Array.of(1), weight: Float64Array.of(1) };
  // As if the density were sharper: y²·δ²/2 is the growth that df would bring if it were larger by δ²/2.
  const sharp = df + sharpness ** 2 / 2;
  // Far from the limit y = π/4 the best distance is π/(sharp·step); near it, 0.7 with 1 − cos 1.4 = 0.83.
  const step = sharp > 73 ? Math.PI / Math.sqrt(DIGITS * sharp) : (2 * Math.PI * 0.7) / (DIGITS + 0.415 * sharp);
  const logDensity = (x: number) => df * (x - 0.5 * Math.expm1(2 * x));
  const at: number[] = [];
  const weight: number[] = [];
  for (const direction of [-1, 1]) {
    for (let i = direction < 0 ? 0 : 1; ; i++) {
      const x = direction * i * step;
      const logged = logDensity(x);
      if (logged < -DIGITS - 3) break;
      at.push(Math.exp(x));
      weight.push(Math.exp(logged));
    }
  }
  const total = weight.reduce((sum, value) => sum + value, 0);
  return { at: Float64Array.from(at), weight: Float64Array.from(weight, (value) => value / total) };
}

/** −ln of the share of the whole that may be missed, e⁻³⁶ = 2e-16. */
const DIGITS = 36;
