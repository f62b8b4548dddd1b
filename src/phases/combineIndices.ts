import { addTo, functional } from "../curve/functional.ts";
import type { Weighed } from "../losses/types.ts";
import type { Measured } from "../measured.ts";
import { addTerms } from "./addTerms.ts";
import { combineTerms } from "./combineTerms.ts";
import type { BudgetContext } from "./measureIndex.ts";
import { noiseTerm } from "./noiseTerm.ts";
import type { Reference } from "./referenceMass.ts";

/** An index of the run at hand and what it is multiplied by. */
export interface IndexPart {
  factor: number;
  index: Measured;
  /** The loss behind it. */
  loss: Weighed;
}

/**
 * Σ factor·index over windows of one run. Signed effects add by their key; noise is anew taken through the combined weights,
 * since neighbouring windows share the mass at their edge.
 *
 * @returns g per 100 g of the reference; the first missing part's code where one is missing.
 */
export function combineIndices(context: BudgetContext, parts: readonly IndexPart[], reference: Reference): Measured {
  let value = 0;
  const budgets = [];
  const whole = functional();
  const scale = 100 / reference.value;
  let largest = 0;
  for (const { factor, index, loss } of parts) {
    if ("missing" in index) return index;
    if ("missing" in loss) return loss;
    value += factor * index.value;
    budgets.push({ terms: index.terms, factor });
    addTo(whole, loss.weights, factor * scale);
    largest = Math.max(largest, Math.abs(factor));
  }
  const terms = addTerms(budgets);
  if (parts.length > 1) {
    if (reference.weights) addTo(whole, reference.weights, -value / reference.value);
    const noise = noiseTerm(context, whole, largest * scale);
    const at = terms.findIndex(({ cause }) => cause === "noise");
    if (at >= 0) terms[at] = noise;
  }
  return { value, u: combineTerms(terms), terms };
}
