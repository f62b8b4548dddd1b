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
  const found = /^(.+?)\s*(>=|<=|≥|≤|=>|=<)\s*([-+\u2212]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?)\s*(.*)$/i.exec(
    text.trim(),
  );
  if (!found) {
    const shown = JSON.stringify(text.trim().slice(0, 60));
    throw new CompareError(`Write a requirement like "strength>=24 MPa" (in quotation marks), not ${shown}.`);
  }
  const at = /[>≥]/.test(found[2]!) ? "least" : "most";
  return { quantity: found[1]!.trim(), at, value: Number(found[3]!.replace("\u2212", "-")), unit: found[4]!.trim() };
}
