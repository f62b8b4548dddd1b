/** Shape of a Fraser–Suzuki peak; units of x. */
export interface PeakShape {
  /** Where its maximum is. */
  position: number;
  /** Full width at half height, positive. */
  width: number;
  /** ln(right half width / left half width) at half height; negative: the longer flank lies left. @default 0 */
  asymmetry?: number;
}

/**
 * A Fraser–Suzuki peak of area one: a Gaussian in the logarithm of the distance from the end of its shorter flank, which
 * makes it asymmetric; with asymmetry 0 a Gaussian. R. D. B. Fraser and E. Suzuki, Anal Chem 41:37–39 (1969); shown to
 * follow DTG peaks of many reaction models by A. Perejón et al., J Phys Chem B 115:1780–1791 (2011).
 *
 * f = h·exp(−ln 2·(ln(1 + 2s(x − x₀)/w)/s)²), area h·(w/2)·√(π/ln 2)·exp(s²/(4 ln 2)), full width at half height
 * w·sinh(s)/s, half widths in the ratio eˢ. The width asked for is the full width, so w follows from it.
 *
 * @returns Height at x, 1/unit of x: x → f, with what depends on the shape alone worked out once.
 * @throws {RangeError} A width that is not positive.
 * Example: `fraserSuzuki({ position: 120, width: 30, asymmetry: -0.3 })(120)` is the largest value it takes.
 */
export function fraserSuzuki(shape: PeakShape): (x: number) => number {
  const { position, width, asymmetry: s = 0 } = shape;
  if (!(width > 0)) throw new RangeError(`Give a peak a positive width, not ${width}`);
  const w = Math.abs(s) < 1e-8 ? width : (width * s) / Math.sinh(s);
  const height = (2 / w) * Math.sqrt(Math.LN2 / Math.PI) * Math.exp((-s * s) / (4 * Math.LN2));
  return (x) => {
    const distance = (2 * (x - position)) / w;
    const z = s * distance;
    if (z <= -1) return 0;
    // ln(1 + z)/s, also where s is zero.
    const u = Math.abs(z) < 1e-9 ? distance : (distance * Math.log1p(z)) / z;
    return height * Math.exp(-Math.LN2 * u * u);
  };
}
