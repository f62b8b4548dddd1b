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
 *
 * @example
 * ```ts
 * import { theoreticalSteps } from "tg-hydrates";
 * const losses = theoreticalSteps("calcium-oxalate-monohydrate").map(({ lossPct }) => lossPct.toFixed(3));
 * if (losses.join(" ") !== "12.330 19.170 30.120") throw new Error("H2O, CO, CO2");
 * ```
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
