import type { Requirement } from "../campaign/decisions.ts";
import { CompareError } from "./compareError.ts";

/**
 * A requirement as it is written: `strength>=24 MPa`, `length_change<=500 microstrain`; without a unit it is in that of the quantity.
 *
 * @throws CompareError where it is none.
 *
 * @example
 * ```ts
 * import { parseRequirement } from "tg-hydrates";
 * const { quantity, at, value, unit } = parseRequirement("strength >= 24 MPa");
 * if (quantity !== "strength" || at !== "least" || value !== 24 || unit !== "MPa") throw new Error("at least 24 MPa");
 * ```
 */
export function parseRequirement(text: string): Requirement {
  const found = partsOf(text.trim());
  if (found === null) {
    const shown = JSON.stringify(text.trim().slice(0, 60));
    throw new CompareError(`Write a requirement like "strength>=24 MPa" (in quotation marks), not ${shown}.`);
  }
  return found;
}

/** Longest requirement, characters. */
const LONGEST = 300;

/** The name of a quantity may hold a sign too: the first behind which a number stands counts. */
function partsOf(text: string): Requirement | null {
  if (text.length > LONGEST) return null;
  for (const { index, 0: sign } of text.matchAll(/>=|<=|≥|≤|=>|=</g)) {
    const quantity = text.slice(0, index).trim();
    const rest = text.slice(index + sign.length).trim();
    const [number] = /^[-+\u2212]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[-+]?\d+)?/i.exec(rest) ?? [];
    if (quantity === "" || number === undefined) continue;
    const at = /[>≥]/.test(sign) ? "least" : "most";
    return { quantity, at, value: Number(number.replace("\u2212", "-")), unit: rest.slice(number.length).trim() };
  }
  return null;
}
