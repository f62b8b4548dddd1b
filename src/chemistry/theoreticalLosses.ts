import { molarMass } from "./molarMass.ts";
import { parseShorthand } from "./parseShorthand.ts";
import { type PhaseName, phases } from "./phases.ts";
import { shorthandComposition } from "./shorthandComposition.ts";

/** What a pure phase loses on ignition: all its water and carbon dioxide; sulfate, alkalis and oxides stay. */
export interface TheoreticalLosses {
  /** g/mol. */
  molarMass: number;
  /** mol per mol of phase. */
  waterMoles: number;
  co2Moles: number;
  /** % of the phase's mass. */
  waterPct: number;
  co2Pct: number;
  totalPct: number;
  /** Mass that stays on ignition, g per mol of phase. */
  ignitedMass: number;
  /** g of phase per g of all its water; null for a phase without water. */
  phasePerWater: number | null;
  /** g of phase per g of all its carbon dioxide; null for a phase without it. */
  phasePerCo2: number | null;
}

/**
 * Theoretical mass losses of a pure phase, from its composition and the atomic weights.
 *
 * @param phase Name in {@link phases}, or cement shorthand.
 * @throws {SyntaxError} Neither a known name nor readable shorthand.
 *
 * @example
 * ```ts
 * import { theoreticalLosses } from "tg-hydrates";
 * if (theoreticalLosses("ettringite").waterPct.toFixed(3) !== "45.932") throw new Error("32 mol of water");
 * if (theoreticalLosses("C4AcH11").co2Pct.toFixed(3) !== "7.742") throw new Error("any shorthand is read");
 * ```
 */
export function theoreticalLosses(phase: PhaseName | (string & {})): TheoreticalLosses {
  const before = known.get(phase);
  if (before) return { ...before };
  const losses = calculate(Object.hasOwn(phases, phase) ? phases[phase as PhaseName].shorthand : phase);
  // Only so many, since a stranger's protocol may name any number.
  if (known.size < 200) known.set(phase, { ...losses });
  return losses;
}

/** Calculated before: the same dozen phases come back with every run. */
const known = new Map<string, TheoreticalLosses>();

function calculate(shorthand: string): TheoreticalLosses {
  const moles = parseShorthand(shorthand);
  const whole = molarMass(shorthandComposition(shorthand));
  const waterMoles = moles.H ?? 0;
  const co2Moles = moles.c ?? 0;
  const water = waterMoles * molarMass("H2O");
  const co2 = co2Moles * molarMass("CO2");
  return {
    molarMass: whole,
    waterMoles,
    co2Moles,
    waterPct: (100 * water) / whole,
    co2Pct: (100 * co2) / whole,
    totalPct: (100 * (water + co2)) / whole,
    ignitedMass: whole - water - co2,
    phasePerWater: water > 0 ? whole / water : null,
    phasePerCo2: co2 > 0 ? whole / co2 : null,
  };
}
