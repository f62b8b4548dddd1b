import type { Functional } from "../curve/functional.ts";
import { noiseOf } from "../curve/noiseOf.ts";
import type { Term } from "../measured.ts";
import type { BudgetContext } from "./measureIndex.ts";

/**
 * The term `noise` of an index: through the actual weights, never below the print resolution d/√12 of one loss.
 *
 * @param whole Weights of the index on the curve, g per 100 g per unit of the run's mass.
 * @param scale g per 100 g per unit of loss.
 */
export function noiseTerm({ curve, file }: BudgetContext, whole: Functional, scale: number): Term {
  const printed = (scale * curve.run.massResolution) / Math.sqrt(12);
  return { cause: "noise", effect: Math.max(noiseOf(curve, whole), printed), key: `noise:${file}` };
}
