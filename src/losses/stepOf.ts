import { addTo, type Functional } from "../curve/functional.ts";
import { massAt } from "../curve/massAt.ts";
import type { Curve } from "../curve/types.ts";
import type { Window } from "./types.ts";

/**
 * The rule `step`: m(T₁) − m(T₂) with the masses interpolated at the exact edges.
 *
 * @returns null where the run does not cover the window.
 */
export function stepOf(curve: Curve, window: Pick<Window, "from_C" | "to_C">): Functional | null {
  const before = massAt(curve, window.from_C, "leaving");
  const after = massAt(curve, window.to_C, "entering");
  return before && after ? addTo(before, after, -1) : null;
}
