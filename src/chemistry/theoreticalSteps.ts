import { molarMass } from "./molarMass.ts";
import { type ReferenceStep, type ReferenceSubstanceName, referenceSubstances } from "./referenceSubstances.ts";

/** A step of a reference substance with its theoretical loss. */
export interface TheoreticalStep extends ReferenceStep {
  /** % of the mass at the start. */
  lossPct: number;
  /** Losses up to and with this one, % of the mass at the start. */
  cumulativePct: number;
  /** What is left after it, % of the mass at the start. */
  residuePct: number;
}

/**
 * Theoretical mass losses of a reference substance, step by step.
 *
 * Example: `theoreticalSteps("calcium-oxalate-monohydrate").map((step) => step.lossPct)` is `12.330, 19.170, 30.120`.
 */
export function theoreticalSteps(name: ReferenceSubstanceName): TheoreticalStep[] {
  const { formula, steps } = referenceSubstances[name];
  const whole = molarMass(formula);
  let cumulativePct = 0;
  return steps.map((step) => {
    const leaving = Object.entries(step.leaves).reduce((sum, [gas, moles]) => sum + moles * molarMass(gas), 0);
    const lossPct = (100 * leaving) / whole;
    cumulativePct += lossPct;
    return { ...step, lossPct, cumulativePct, residuePct: 100 - cumulativePct };
  });
}
