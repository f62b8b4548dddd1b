import { addWeight, evaluate, functional } from "../curve/functional.ts";
import type { Curve } from "../curve/types.ts";
import { type Flag, flag } from "../flags.ts";
import { areaOf } from "./areaOf.ts";
import { checkLossOptions } from "./checkLossOptions.ts";
import { findPeak } from "./findPeak.ts";
import { ignitedMass } from "./ignitedMass.ts";
import type { Loss, LossProtocol, Rule, RunLosses, Weighed, Window } from "./types.ts";
import { weighLoss } from "./weighLoss.ts";

/**
 * Curve → losses: the mass lost in every window by every rule, and the ignited mass.
 *
 * @param curve From `toCurve`; taken again under other windows it is not computed anew.
 * @param protocol A settled protocol: what depends on all runs is fixed in it.
 * @returns Losses in the unit of the run's mass, in the order of the windows. A window that the run does not cover
 * completely has no loss but a flag.
 * @throws TypeError for a protocol that is not settled; RangeError for a window that cannot work.
 *
 * @example
 * ```ts
 * import { losses, protocols, readRun, settle, toCurve } from "tg-hydrates";
 * const protocol = settle(protocols.csa);
 * const rows = ["T/°C\tm/mg"];
 * for (let T = 30; T <= 960; T += 0.5) rows.push(`${T}\t${(20 - 2 / (1 + Math.exp((130 - T) / 5))).toFixed(4)}`);
 * const curve = toCurve(readRun(new TextEncoder().encode(rows.join("\n"))), protocol);
 * const [aft] = losses(curve, protocol).losses;
 * if (!("value" in aft!.step) || Math.abs(aft.step.value - 2) > 1e-3) throw new Error("2 mg leave in the first window");
 * ```
 */
export function losses(curve: Curve, protocol: LossProtocol): RunLosses {
  checkLossOptions(protocol);
  const { ignited, late, flags } = ignitedMass(curve, protocol.ignition);
  const first = functional();
  addWeight(first.readings, 0, 1);
  return {
    losses: protocol.windows.map((window) => oneLoss(curve, window)),
    ignited,
    late,
    initial: { weights: first, value: curve.initialMass },
    flags,
  };
}

function oneLoss(curve: Curve, window: Window): Loss {
  const { name, from_C, to_C, rule } = window;
  const flags: Flag[] = [];
  const peak = findPeak(curve, window);
  const by = (rule: Rule): Weighed => {
    const weights = weighLoss(curve, window, { rule, peak: peak?.temperature ?? null });
    return "missing" in weights ? weights : { weights, value: evaluate(curve, weights) };
  };
  const loss: Loss = {
    window,
    step: by("step"),
    area: by("area"),
    tangent: by("tangent"),
    peak,
    flags,
  };
  if ("missing" in loss.step) {
    const low = curve.pieces[0]!.from.toFixed(1);
    const high = curve.pieces.at(-1)!.to.toFixed(1);
    const sentence = `The window ${name} (${from_C}–${to_C} °C) is not covered: the heating goes from ${low} to ${high} °C.`;
    flags.push(flag("window-truncated", sentence, name));
    return { ...loss, peak: null };
  }
  for (const hold of curve.isothermals) {
    if (hold.position !== "inside" || !contains(window, hold.temperature)) continue;
    const sentence = `The isothermal at ${hold.temperature.toFixed(0)} °C stands inside the window ${name}.`;
    flags.push(flag("isothermal-in-window", sentence, name));
  }
  // With a step the band only matters where it leaves no area at all.
  if ("missing" in loss.area || (rule === "area" && areaOf(curve, window).clipped)) {
    const sentence = `The anchor band of the window ${name} is cut by an end of the heating.`;
    flags.push(flag("anchor-truncated", sentence, name));
  }
  if (rule === "tangent" && "missing" in loss.tangent) {
    const why =
      loss.tangent.missing === "no-peak"
        ? "has no prominent DTG peak"
        : "has a fitting range that the run does not cover";
    flags.push(flag("no-tangent", `The window ${name} ${why}: there is no tangent.`, name));
  }
  return loss;
}

/** Whether an isothermal stands inside a window and not at its edge (within the 2 °C of massAt). */
function contains({ from_C, to_C }: Window, temperature: number): boolean {
  return temperature > from_C + 2 && temperature < to_C - 2;
}
