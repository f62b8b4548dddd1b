import { type Flag, flag } from "../flags.ts";
import type { Measured } from "../measured.ts";
import { detectionLimit } from "./detectionLimit.ts";

/**
 * The flag `below-detection` of an index or amount that is not above its detection limit; none where one of the two is not known.
 * The number stays as it is, below zero too: clipped ones would lift every mean.
 */
export function belowDetection(measured: Measured, of: { what: string; window: string }): Flag[] {
  if ("missing" in measured) return [];
  const limit = detectionLimit(measured.terms);
  if (limit === null || measured.value > limit) return [];
  // + 0: nothing has no sign.
  const shown = (Math.round(1000 * measured.value) / 1000 + 0).toFixed(3);
  const sentence = `${of.what}: ${shown} g per 100 g is not above the detection limit of ${limit.toFixed(3)}.`;
  return [flag("below-detection", sentence, of.window)];
}
