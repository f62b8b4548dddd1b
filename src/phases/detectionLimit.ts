import type { Term } from "../measured.ts";
import { combineTerms } from "./combineTerms.ts";

/**
 * Detection limit of an index or amount, in its unit: 3.29 times the standard uncertainty of a zero result, for 5 % of both
 * kinds of error (Currie, Pure Appl Chem 67:1699–1723, 1995, section 3.7; the same as ISO 11843-2 for a known standard deviation).
 * A zero loss is uncertain by the balance only: noise and buoyancy; everything else is a share of the loss or of the DTG at
 * the edges and vanishes with it.
 *
 * @returns null where the budget is not known.
 */
export function detectionLimit(terms: readonly Term[]): number | null {
  const atZero = terms.filter(({ cause }) => cause === "noise" || cause === "buoyancy");
  return atZero.length === 0 ? null : 3.29 * combineTerms(atZero);
}
