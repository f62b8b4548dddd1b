import { gasConstant } from "./constants.ts";
import { scaledE2 } from "./scaledE2.ts";

/**
 * Logarithm of the temperature integral ∫₀ᵀ exp(−E/RT′)dT′ = T·E₂(E/RT), in ln K.
 *
 * The substitution u = E/RT′ turns the integral into the exponential integral of order two exactly; the logarithm
 * keeps it in range at any activation energy.
 *
 * @param kelvin Temperature T, K.
 * @param E_kJ_mol Activation energy, kJ/mol, positive.
 */
export function logTemperatureIntegral(kelvin: number, E_kJ_mol: number): number {
  const x = (E_kJ_mol * 1000) / (gasConstant * kelvin);
  return Math.log(kelvin * scaledE2(x)) - x;
}
