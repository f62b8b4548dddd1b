import { atomicWeights } from "./atomicWeights.ts";
import { parseFormula } from "./parseFormula.ts";
import type { Composition } from "./types.ts";

/**
 * Molar mass in g/mol from the abridged standard atomic weights (Prohaska et al. 2022).
 *
 * @param substance A chemical formula, or a composition in moles of each element.
 * @throws {SyntaxError} The formula cannot be read.
 * @throws {RangeError} An element whose atomic weight is not in the table.
 * Examples: `molarMass("H2O")` is 18.015, `molarMass(shorthandComposition("C6A$3H32"))` is 1255.074.
 */
export function molarMass(substance: string | Composition): number {
  const composition = typeof substance === "string" ? parseFormula(substance) : substance;
  let sum = 0;
  for (const [element, moles] of Object.entries(composition)) {
    const entry = Object.hasOwn(atomicWeights, element) ? atomicWeights[element] : undefined;
    if (entry === undefined) {
      throw new RangeError(
        `No atomic weight is known for "${element}" of ${JSON.stringify(substance)}; known are ${Object.keys(atomicWeights).join(", ")}`,
      );
    }
    sum += entry.weight * moles;
  }
  return sum;
}
