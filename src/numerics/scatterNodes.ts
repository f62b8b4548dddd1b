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
 * (L. N. Trefethen and J. A. C. Weideman, SIAM Review 56:385–458, 2014): its error is exp(−2πy/step) times how much the
 * function grows at a distance y off the real axis. The density of ln u, u^df·exp(−df·u²/2), grows by (cos 2y)^(−df/2), a normal
 * probability shifted by δ = `sharpness` by exp(δ²sin²y/(2cos 2y)). The step is the widest for which some y < π/4 leaves 1e-16.
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
  const growth = (y: number) =>
    (sharpness ** 2 * Math.sin(y) ** 2) / (2 * Math.cos(2 * y)) - (df / 2) * Math.log(Math.cos(2 * y));
  let step = 0;
  for (let y = 0.76; y > 1e-9; y *= 0.93) step = Math.max(step, (2 * Math.PI * y) / (DIGITS + growth(y)));
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
