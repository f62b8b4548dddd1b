import { gasConstant } from "./constants.ts";
import type { Reaction } from "./types.ts";

/** ln(A·exp(−E/RT)), A in 1/min (Arrhenius). */
export function logRateConstant(reaction: Reaction, kelvin: number): number {
  return reaction.ln_A_per_min - (reaction.E_kJ_mol * 1000) / (gasConstant * kelvin);
}
