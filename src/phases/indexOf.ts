import type { Measured } from "../measured.ts";

/** A loss in g per 100 g of the reference mass; missing where one of the two is. */
export function indexOf(loss: Measured, reference: Measured): Measured {
  if ("missing" in loss) return loss;
  if ("missing" in reference) return reference;
  return { value: (100 * loss.value) / reference.value, u: null, terms: [] };
}
