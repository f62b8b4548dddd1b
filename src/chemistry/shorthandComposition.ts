import { oxides } from "./oxides.ts";
import { parseFormula } from "./parseFormula.ts";
import { parseShorthand } from "./parseShorthand.ts";
import type { Composition } from "./types.ts";

/**
 * Elements of a substance written in cement shorthand.
 *
 * @throws {SyntaxError} The shorthand cannot be read.
 * Example: `shorthandComposition("CH")` is `{ Ca: 1, O: 2, H: 2 }`.
 */
export function shorthandComposition(shorthand: string): Composition {
  const before = known.get(shorthand);
  if (before) return { ...before };
  const sum: Composition = {};
  for (const [letter, moles] of Object.entries(parseShorthand(shorthand))) {
    for (const [element, count] of Object.entries(parseFormula(oxides[letter]!))) {
      sum[element] = (sum[element] ?? 0) + count * moles;
    }
  }
  // Only so many, since a stranger's protocol may name any number.
  if (known.size < 200) known.set(shorthand, { ...sum });
  return sum;
}

/** Read before: the same dozen phases come back with every run. */
const known = new Map<string, Composition>();
