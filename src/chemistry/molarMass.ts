import { atomicWeights } from "./atomicWeights.ts";
import { parseFormula } from "./parseFormula.ts";
import type { Composition } from "./types.ts";

/**
 * Molar mass in g/mol from the abridged standard atomic weights (Prohaska et al. 2022).
 *
 * @param substance A chemical formula, or a composition in moles of each element.
 * @throws {SyntaxError} The formula cannot be read.
 * @throws {RangeError} An element whose atomic weight is not in the table.
 *
 * @example
 * ```ts
 * import { molarMass } from "tg-hydrates";
 * if (molarMass("H2O").toFixed(3) !== "18.015") throw new Error("two hydrogens and an oxygen");
 * if (molarMass({ Ca: 1, O: 1 }).toFixed(3) !== "56.077") throw new Error("a composition works as well");
 * ```
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
