import { addTo, type Functional } from "../curve/functional.ts";
import type { Curve } from "../curve/types.ts";
import { areaOf } from "./areaOf.ts";
import { stepOf } from "./stepOf.ts";
import { tangentOf } from "./tangentOf.ts";
import type { Rule, Window } from "./types.ts";

/**
 * A loss by one rule, with the edges moved by `shift` °C: what a thermometer that reads wrong by that much would give.
 *
 * @param options `peak`: temperature of the DTG peak for the rule `tangent`, °C.
 * @returns The weights, or the code of what is missing.
 */
export function weighLoss(
  curve: Curve,
  window: Window,
  options: { rule: Rule; peak: number | null; shift?: number },
): Functional | { missing: string } {
  const { rule, peak, shift = 0 } = options;
  const moved = { ...window, from_C: window.from_C + shift, to_C: window.to_C + shift };
  const step = stepOf(curve, moved);
  if (step === null) return { missing: "window-truncated" };
  if (rule === "step") return step;
  if (rule === "area") {
    const { baseline } = areaOf(curve, moved);
    return baseline === null ? { missing: "anchor-truncated" } : addTo(baseline, step);
  }
  if (!window.tangent) return { missing: "no-tangent-ranges" };
  if (peak === null) return { missing: "no-peak" };
  const by = (range: [number, number]): [number, number] => [range[0] + shift, range[1] + shift];
  const { before_C, after_C } = window.tangent;
  return tangentOf(curve, { before_C: by(before_C), after_C: by(after_C) }, peak) ?? { missing: "tangent-truncated" };
}
