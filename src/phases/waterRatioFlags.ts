import { type Flag, flag } from "../flags.ts";
import type { Measured } from "../measured.ts";
import type { Mix } from "./types.ts";

/** Says which mix lacks its water-to-binder ratio, where an amount per 100 g of paste is missing for want of it. */
export function waterRatioFlags(amount: Measured, mix: Mix | null, window: string): Flag[] {
  if (!("missing" in amount) || amount.missing !== "no-water-ratio") return [];
  const sentence = `An amount per 100 g of paste needs the water-to-binder ratio of the mix ${mix?.mix ?? "(none named)"}.`;
  return [flag("no-water-ratio", sentence, window)];
}
