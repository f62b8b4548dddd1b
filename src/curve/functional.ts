import type { Curve } from "./types.ts";

/**
 * A linear functional of a curve: Σ mass[k]·w + Σ dtg[k]·w + Σ run.mass[i]·w. Every loss is one; carried as weights it
 * can be evaluated, subtracted and pulled back to the readings.
 */
export interface Functional {
  /** Weights on the smoothed mass, by grid index. */
  mass: Map<number, number>;
  /** Weights on the DTG, by grid index. */
  dtg: Map<number, number>;
  /** Weights on single readings of the run, by reading. */
  readings: Map<number, number>;
}

/** The functional that is zero. */
export function functional(): Functional {
  return { mass: new Map(), dtg: new Map(), readings: new Map() };
}

/** Adds `factor` times `other` to `target`, which is changed. */
export function addTo(target: Functional, other: Functional, factor = 1): Functional {
  for (const [k, w] of other.mass) target.mass.set(k, (target.mass.get(k) ?? 0) + factor * w);
  for (const [k, w] of other.dtg) target.dtg.set(k, (target.dtg.get(k) ?? 0) + factor * w);
  for (const [i, w] of other.readings) target.readings.set(i, (target.readings.get(i) ?? 0) + factor * w);
  return target;
}

/** Value of a functional on a curve, in the unit of the run's mass. */
export function evaluate(curve: Curve, { mass, dtg, readings }: Functional): number {
  // About the first mass: the weights of a loss sum to zero, and the digits stay.
  const base = curve.initialMass;
  let sum = 0;
  let total = 0;
  for (const [k, w] of mass) {
    sum += w * (curve.mass[k]! - base);
    total += w;
  }
  for (const [i, w] of readings) {
    sum += w * (curve.run.mass[i]! - base);
    total += w;
  }
  for (const [k, w] of dtg) sum += w * curve.dtg[k]!;
  return sum + total * base;
}
