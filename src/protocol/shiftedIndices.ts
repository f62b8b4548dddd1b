import { evaluate } from "../curve/functional.ts";
import type { Curve } from "../curve/types.ts";
import type { Loss } from "../losses/types.ts";
import { weighLoss } from "../losses/weighLoss.ts";
import type { Reference } from "../phases/referenceMass.ts";
import type { ShiftedIndices } from "./types.ts";

/** Each edge is moved by this, °C. */
export const SHIFT = 5;

/**
 * The index with one edge moved by 5 °C at a time: how much depends on where the window is put.
 *
 * @returns g per 100 g; null where the run does not cover the moved window.
 */
export function shiftedIndices(curve: Curve, loss: Loss, reference: Reference | { missing: string }): ShiftedIndices {
  const { window, peak } = loss;
  const moved = (from: number, to: number): number | null => {
    const other = { ...window, from_C: window.from_C + from, to_C: window.to_C + to };
    if ("missing" in reference || !(other.from_C < other.to_C)) return null;
    const weights = weighLoss(curve, other, { rule: window.rule, peak: peak?.temperature ?? null });
    return "missing" in weights ? null : (100 * evaluate(curve, weights)) / reference.value;
  };
  return {
    from_down: moved(-SHIFT, 0),
    from_up: moved(SHIFT, 0),
    to_down: moved(0, -SHIFT),
    to_up: moved(0, SHIFT),
  };
}
