import { addTo, addWeight, evaluate, type Functional, functional } from "../curve/functional.ts";
import { massAt, pieceAt } from "../curve/massAt.ts";
import type { Curve, Isothermal } from "../curve/types.ts";
import { type Flag, flag } from "../flags.ts";
import { leastMass } from "../massLimits.ts";
import type { Ignition, Weighed } from "./types.ts";

/** An isothermal counts as the ignition if it is no further than this from the ignition temperature, °C. */
const NEAR = 10;

/**
 * The mass after ignition: the mean of the last minute of a final isothermal, otherwise of the curve over
 * ± `half_width_C` about the ignition temperature, one-sided where the run ends there.
 *
 * @returns Mass in the unit of the run with its weights, what the end still loses, and flags: `ends-before-ignition` (no mass)
 * and `not-ignited` (mass is still being lost).
 */
export function ignitedMass(curve: Curve, ignition: Ignition): { ignited: Weighed; late: number; flags: Flag[] } {
  const hold = finalHold(curve, ignition);
  const found = hold ? fromHold(curve, hold) : fromCurve(curve, ignition);
  if (found === null) {
    const end = curve.pieces.at(-1)!.to.toFixed(0);
    const sentence = `The heating ends at ${end} °C, before the ignition temperature of ${ignition.temperature_C} °C: there is no ignited mass.`;
    const missing: Weighed = { missing: "ends-before-ignition" };
    return { ignited: missing, late: 0, flags: [flag("ends-before-ignition", sentence)] };
  }
  const value = evaluate(curve, found.mass);
  if (!(value >= leastMass)) {
    const sentence = `The mass at the ignition temperature is ${value.toPrecision(3)} ${curve.run.massUnit}: no residue is left to refer to.`;
    const missing: Weighed = { missing: "no-reference-mass" };
    return { ignited: missing, late: 0, flags: [flag("no-reference-mass", sentence)] };
  }
  const flags: Flag[] = [];
  const late = found.late === null ? 0 : evaluate(curve, found.late);
  const index = (100 * late) / value;
  if (index > ignition.max_loss) {
    const sentence = `The ${found.stretch} before ignition ends still lose ${index.toFixed(2)} g per 100 g of ignited mass.`;
    flags.push(flag("not-ignited", sentence));
  }
  return { ignited: { weights: found.mass, value }, late, flags };
}

function finalHold(curve: Curve, { temperature_C, hold_min }: Ignition): Isothermal | null {
  if (curve.run.time === null) return null;
  const hold = curve.isothermals.find((h) => h.position === "end");
  if (!hold || Math.abs(hold.temperature - temperature_C) > NEAR) return null;
  return hold.to - hold.from >= hold_min * 60 ? hold : null;
}

interface Found {
  mass: Functional;
  /** Loss over the last stretch. */
  late: Functional | null;
  stretch: string;
}

function fromHold(curve: Curve, hold: Isothermal): Found {
  const time = curve.run.time!;
  const end = time[hold.end - 1]!;
  const mean = (from: number, to: number, first: number): Functional => {
    const result = functional();
    const inside: number[] = [];
    let i = hold.end - 1;
    for (; i >= first && time[i]! >= from; i--) if (time[i]! <= to) inside.push(i);
    // Readings further apart than the minute: the one before it.
    if (inside.length === 0) inside.push(Math.max(i, first));
    for (const i of inside) addWeight(result.readings, i, 1 / inside.length);
    return result;
  };
  const mass = mean(end - 60, end, hold.first);
  // A hold shorter than that began in the heating, and so does the stretch: what it lost there is part of what is left to lose.
  const before = mean(end - 300, end - 240, 0);
  return { mass, late: addTo(before, mass, -1), stretch: "last 5 min" };
}

function fromCurve(curve: Curve, { temperature_C: T, half_width_C: half, check_C }: Ignition): Found | null {
  const end = curve.pieces.at(-1)!.to;
  if (end < T - half) return null;
  const middle = Math.min(T, end);
  // With an isothermal after the ignition temperature it is not the last piece.
  const piece = pieceAt(curve, middle, "entering") ?? curve.pieces.at(-1)!;
  const mass = functional();
  let n = 0;
  for (let k = piece.gridFirst; k < piece.gridEnd; k++) {
    if (Math.abs(curve.temperature[k]! - middle) <= half + 1e-9) n++;
  }
  if (n === 0) return null;
  for (let k = piece.gridFirst; k < piece.gridEnd; k++) {
    if (Math.abs(curve.temperature[k]! - middle) <= half + 1e-9) addWeight(mass.mass, k, 1 / n);
  }
  const before = massAt(curve, middle - check_C, "leaving");
  const after = massAt(curve, middle, "entering");
  return { mass, late: before && after ? addTo(before, after, -1) : null, stretch: `last ${check_C} °C` };
}
