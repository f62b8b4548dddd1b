import type { Margin } from "../campaign/decisions.ts";
import { CompareError } from "./compareError.ts";

/**
 * Margins as they are written: `10%` for all quantities, `strength=10%`, `strength=3 MPa`, `aft-afm=2` for one; several
 * separated by commas. A percentage is a share of the reference always, also where the quantity itself is in %: such a value is written in
 * another unit (`length_change=50 microstrain`).
 *
 * @throws CompareError where it is none of these.
 *
 * @example
 * ```ts
 * import { parseMargin } from "tg-hydrates";
 * const [all, strength] = parseMargin("10%,strength=3 MPa");
 * if (all!.size !== 0.1 || strength!.unit !== "MPa") throw new Error("a share for all, a value for strength");
 * ```
 */
export function parseMargin(text: string): Margin[] {
  return text.split(",").map((part) => {
    const found = partOf(part.trim());
    if (found === null) {
      const shown = JSON.stringify(part.trim().slice(0, 60));
      throw new CompareError(`Write a margin like 10%, strength=10% or strength=3 MPa, not ${shown}.`);
    }
    const { quantity, size, unit } = found;
    if (unit === "%" || /^(?:percent|pct)$/i.test(unit))
      return { quantity, kind: "share", size: size / 100, unit: null };
    if (quantity === null) {
      const shown = JSON.stringify(part.trim().slice(0, 60));
      throw new CompareError(
        `A margin that is no percentage belongs to one quantity: name it, such as strength=3 MPa, not ${shown}.`,
      );
    }
    return { quantity, kind: "value", size, unit: unit === "" ? null : unit };
  });
}

/** Longest margin, characters. */
const LONGEST = 300;

/** Quantity, number and unit; the name of a quantity may hold an equals sign. */
function partOf(part: string): { quantity: string | null; size: number; unit: string } | null {
  if (part.length > LONGEST) return null;
  for (let at = part.indexOf("=", 1); at > 0; at = part.indexOf("=", at + 1)) {
    const written = sizeOf(part.slice(at + 1).trim());
    if (written !== null) return { quantity: part.slice(0, at).trim(), ...written };
  }
  const written = sizeOf(part);
  return written && { quantity: null, ...written };
}

function sizeOf(text: string): { size: number; unit: string } | null {
  const [number] = /^(?:\d+(?:\.\d*)?|\.\d+)(?:e[-+]?\d+)?/i.exec(text) ?? [];
  return number === undefined ? null : { size: Number(number), unit: text.slice(number.length).trim() };
}
