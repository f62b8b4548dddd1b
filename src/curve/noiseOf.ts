import type { Functional } from "./functional.ts";
import { pullBack } from "./pullBack.ts";
import type { Curve } from "./types.ts";

/**
 * Standard deviation of a functional from the balance noise: √(wᵀΓw)·σ with the weights pulled back to the readings and
 * Γ the correlation lagOne^|i−j| of neighbouring readings (JCGM 100:2008, 5.2.2).
 *
 * @returns Unit of the functional.
 */
export function noiseOf(curve: Curve, functional: Functional): number {
  const { sd, lagOne } = curve.noise;
  let sum = 0;
  // Stretches lie apart: what is correlated between them is nothing.
  for (const { weights } of pullBack(curve, functional)) {
    let before = 0;
    for (let i = 0; i < weights.length; i++) {
      const w = weights[i]!;
      sum += w * (w + 2 * before);
      before = lagOne * (before + w);
    }
  }
  return sd * Math.sqrt(Math.max(sum, 0));
}
