import type { Curve } from "./types.ts";

/** Weights as two lists of equal length; a place may occur more than once, its weights then add. */
export interface Weights {
  /** Index of a grid point or of a reading. */
  at: number[];
  w: number[];
}

/**
 * A linear functional of a curve: Σ mass[k]·w + Σ dtg[k]·w + Σ run.mass[i]·w. Every loss is one; carried as weights it
 * can be evaluated, subtracted and pulled back to the readings.
 */
export interface Functional {
  /** Weights on the smoothed mass, by grid index. */
  mass: Weights;
  /** Weights on the DTG, by grid index. */
  dtg: Weights;
  /** Weights on single readings of the run, by reading. */
  readings: Weights;
}

/** The functional that is zero. */
export function functional(): Functional {
  return { mass: { at: [], w: [] }, dtg: { at: [], w: [] }, readings: { at: [], w: [] } };
}

/** Adds one weight, in place. */
export function addWeight(weights: Weights, at: number, w: number): void {
  weights.at.push(at);
  weights.w.push(w);
}

/** Adds `factor` times `other` to `target`, which is changed. */
export function addTo(target: Functional, other: Functional, factor = 1): Functional {
  append(target.mass, other.mass, factor);
  append(target.dtg, other.dtg, factor);
  append(target.readings, other.readings, factor);
  return target;
}

function append(target: Weights, { at, w }: Weights, factor: number): void {
  for (let i = 0; i < at.length; i++) {
    target.at.push(at[i]!);
    target.w.push(factor * w[i]!);
  }
}

/** Value of a functional on a curve, in the unit of the run's mass. */
export function evaluate(curve: Curve, { mass, dtg, readings }: Functional): number {
  // About the first mass: the weights of a loss sum to zero, and the digits stay.
  const base = curve.initialMass;
  let sum = 0;
  let total = 0;
  for (let i = 0; i < mass.at.length; i++) {
    sum += mass.w[i]! * (curve.mass[mass.at[i]!]! - base);
    total += mass.w[i]!;
  }
  for (let i = 0; i < readings.at.length; i++) {
    sum += readings.w[i]! * (curve.run.mass[readings.at[i]!]! - base);
    total += readings.w[i]!;
  }
  for (let i = 0; i < dtg.at.length; i++) sum += dtg.w[i]! * curve.dtg[dtg.at[i]!]!;
  return sum + total * base;
}
