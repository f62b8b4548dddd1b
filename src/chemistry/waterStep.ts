import { molarMass } from "./molarMass.ts";
import type { PhaseName } from "./phases.ts";
import { theoreticalLosses } from "./theoreticalLosses.ts";

/** What it means that a phase loses part of its water. */
export interface WaterStep {
  /** Loss, % of the phase's mass. */
  lossPct: number;
  /** g of phase per g of the water lost in this step. */
  phasePerWater: number;
}

/**
 * A partial loss of water: how much of the phase's mass goes with a number of moles, and how much phase stands for a
 * gram of it. The count decides the amount (ettringite by 20 or by 32 mol differs by a factor of 1.6), so it is required.
 *
 * @param phase Name in {@link phases}, or cement shorthand.
 * @param moles mol of water per mol of phase, more than zero and at most what the phase has.
 * @throws {RangeError} More water than the phase has, or none.
 * @throws {SyntaxError} Neither a known name nor readable shorthand.
 *
 * @example
 * ```ts
 * import { waterStep } from "tg-hydrates";
 * const { lossPct, phasePerWater } = waterStep("ettringite", 24);
 * if (lossPct.toFixed(3) !== "34.449" || phasePerWater.toFixed(4) !== "2.9028") throw new Error("24 of 32 mol");
 * ```
 */
export function waterStep(phase: PhaseName | (string & {}), moles: number): WaterStep {
  const { molarMass: whole, waterMoles } = theoreticalLosses(phase);
  if (!(moles > 0 && moles <= waterMoles)) {
    throw new RangeError(`${phase} has ${waterMoles} mol of water: ${moles} mol cannot leave`);
  }
  const water = moles * molarMass("H2O");
  return { lossPct: (100 * water) / whole, phasePerWater: whole / water };
}
