import { gasConstant, zeroCelsius } from "./constants.ts";
import { logRateConstant } from "./logRateConstant.ts";
import { logTemperatureIntegral } from "./logTemperatureIntegral.ts";
import type { Reaction } from "./types.ts";

/** Where and how wide the DTG peak of a reaction shall be. */
export interface Placement {
  name?: string;
  /** Mass it loses, % of the mass before heating. */
  loss_pct: number;
  /** Temperature of the DTG maximum, °C. */
  peak_C: number;
  /** Full width of the DTG peak at half its height, °C; this or the activation energy. */
  width_C?: number;
  E_kJ_mol?: number;
  /** Reaction order. @default 1 */
  order?: number;
  /** Rate at which it shall peak there. @default 10 */
  rate_K_per_min?: number;
}

/**
 * Kinetic parameters of a reaction from the position of its DTG peak and either its width or its activation energy.
 *
 * At the peak d(ln rate)/dt is zero: β·E/(RT²) = n·A·exp(−E/RT)·(1 − α)ⁿ⁻¹ (Kissinger, Anal Chem 29:1702–1706, 1957),
 * and with (1 − α)ⁿ⁻¹ = 1/(1 + (n − 1)g) this gives A in closed form. The width is met by iteration on E.
 *
 * @throws {RangeError} Neither or both of width and activation energy, a value that is not positive, or a width that no
 * reaction has there.
 * @example
 * ```ts
 * import { placeReaction } from "tg-hydrates";
 * const narrow = placeReaction({ name: "ettringite", loss_pct: 9.2, peak_C: 112, width_C: 38 });
 * const broad = placeReaction({ name: "ettringite", loss_pct: 9.2, peak_C: 112, width_C: 76 });
 * if (!(broad.E_kJ_mol < narrow.E_kJ_mol)) throw new Error("a broad peak has a low activation energy");
 * ```
 */
export function placeReaction(placement: Placement): Reaction {
  const { name, loss_pct, peak_C, width_C, E_kJ_mol, order = 1, rate_K_per_min = 10 } = placement;
  if ((width_C === undefined) === (E_kJ_mol === undefined)) {
    throw new RangeError("Give either width_C or E_kJ_mol to place a reaction");
  }
  const asked = width_C ?? E_kJ_mol!;
  if (!(order > 0)) throw new RangeError(`Give a positive order: a reaction of order ${order} has no peak`);
  if (!(asked > 0 && rate_K_per_min > 0 && peak_C > -zeroCelsius)) {
    throw new RangeError(
      `Give a positive width or energy, rate and absolute temperature, not ${JSON.stringify(placement)}`,
    );
  }
  const peak_K = peak_C + zeroCelsius;
  const withEnergy = (energy: number): Reaction => {
    const ln_A_per_min = logFactorAtPeak(peak_K, { energy, order, rate: rate_K_per_min });
    const reaction: Reaction = { loss_pct, ln_A_per_min, E_kJ_mol: energy };
    if (name !== undefined) reaction.name = name;
    if (order !== 1) reaction.order = order;
    return reaction;
  };
  if (E_kJ_mol !== undefined) return withEnergy(E_kJ_mol);

  // In units of RT²/E a peak of given order has nearly one width, so that the ratio of widths corrects E.
  let energy = (2.5 * gasConstant * peak_K ** 2) / (width_C! * 1000);
  for (let round = 0; round < 50; round++) {
    const ratio = fullWidth(withEnergy(energy), peak_K, rate_K_per_min) / width_C!;
    energy *= ratio;
    if (Math.abs(ratio - 1) < 1e-12) return withEnergy(energy);
  }
  throw new RangeError(`No reaction of order ${order} has a peak at ${peak_C} °C that is ${width_C} °C wide`);
}

/** ln A (1/min) for a peak at this temperature. */
function logFactorAtPeak(kelvin: number, kinetics: { energy: number; order: number; rate: number }): number {
  const { energy, order, rate } = kinetics;
  const x = (energy * 1000) / (gasConstant * kelvin);
  /** E/(RT²)·∫exp(−E/RT)dT in units of exp(−E/RT), a little below 1. */
  const integral = (x / kelvin) * Math.exp(logTemperatureIntegral(kelvin, energy) + x);
  return Math.log((rate * x) / kelvin / (order - (order - 1) * integral)) + x;
}

/** Full width at half height of the peak of dα/dT, K. */
function fullWidth(reaction: Reaction, peak_K: number, rate: number): number {
  const order = reaction.order ?? 1;
  const logSpeed = (kelvin: number): number => {
    const reached = Math.exp(
      reaction.ln_A_per_min - Math.log(rate) + logTemperatureIntegral(kelvin, reaction.E_kJ_mol),
    );
    const left = 1 - (1 - order) * reached;
    const logLeft = order === 1 ? -reached : left > 0 ? Math.log(left) / (1 - order) : Number.NEGATIVE_INFINITY;
    return logRateConstant(reaction, kelvin) + order * logLeft;
  };
  const half = logSpeed(peak_K) - Math.LN2;
  const crossing = (direction: 1 | -1): number => {
    let inside = peak_K;
    let outside = direction === 1 ? peak_K * 2 : peak_K / 100;
    for (let i = 0; i < 60; i++) {
      const middle = 0.5 * (inside + outside);
      if (logSpeed(middle) > half) inside = middle;
      else outside = middle;
    }
    return 0.5 * (inside + outside);
  };
  return crossing(1) - crossing(-1);
}
