import { molarMass } from "../chemistry/molarMass.ts";
import { theoreticalLosses } from "../chemistry/theoreticalLosses.ts";
import type { Amount, Gas } from "../losses/types.ts";

/** What a gram of a window's loss stands for. */
export interface PhasePerGas {
  gas: Gas;
  /** g of phase per g of gas lost in the window. */
  factor: number;
}

/**
 * How much phase stands for a gram of what a window loses, by the declared number of moles: M(phase)/(n·M(gas)).
 *
 * @throws {RangeError} More moles than the phase has, none of the gas, or a phase with both gases of which none is named.
 * @throws {SyntaxError} Neither a known phase nor readable shorthand.
 *
 * Example: `phasePerGas({ phase: "ettringite", mol_lost: 26 }).factor` is 2.6795.
 */
export function phasePerGas(claim: Amount): PhasePerGas {
  const key = `${claim.phase} ${claim.mol_lost} ${claim.gas}`;
  const known = made.get(key);
  if (known) return known;
  const factor = Object.freeze(computed(claim));
  if (made.size < MOST) made.set(key, factor);
  return factor;
}

/** Every run asks for the few factors of its protocol. */
const made = new Map<string, PhasePerGas>();
const MOST = 200;

function computed({ phase, mol_lost, gas }: Amount): PhasePerGas {
  const { molarMass: whole, waterMoles, co2Moles } = theoreticalLosses(phase);
  const held: Record<Gas, number> = { H2O: waterMoles, CO2: co2Moles };
  if (gas === undefined && waterMoles > 0 && co2Moles > 0) {
    throw new RangeError(`Name the gas: ${phase} loses both H2O (${waterMoles} mol) and CO2 (${co2Moles} mol)`);
  }
  const lost = gas ?? (co2Moles > 0 ? "CO2" : "H2O");
  if (held[lost] === 0)
    throw new RangeError(`Choose another phase: ${phase} has no ${gas ?? "water or carbon dioxide"}`);
  if (!(mol_lost > 0 && mol_lost <= held[lost] * (1 + 1e-9))) {
    throw new RangeError(
      `Give a number of moles above 0 and at most ${held[lost]}, the ${lost} of ${phase}, not ${mol_lost}`,
    );
  }
  return { gas: lost, factor: whole / (mol_lost * molarMass(lost)) };
}
