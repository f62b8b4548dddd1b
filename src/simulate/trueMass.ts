import { checkModel } from "./checkModel.ts";
import { zeroCelsius } from "./constants.ts";
import { logRateConstant } from "./logRateConstant.ts";
import { logTemperatureIntegral } from "./logTemperatureIntegral.ts";
import { type Leg, programmeLegs } from "./programmeLegs.ts";
import type { Model, Reaction } from "./types.ts";

/** The sample at one moment. */
export interface Moment {
  temperature_C: number;
  mass_mg: number;
}

/** The noise-free sample over the whole programme. */
export interface TrueMass {
  /** Length of the programme, min. */
  duration_min: number;
  /** The sample after this many minutes, 0…duration_min. */
  at(minute: number): Moment;
  /** The minute at which the sample first reaches a temperature, °C; null where the programme never does. */
  minuteAt(temperature_C: number): number | null;
}

/**
 * The mass of a sample whose reactions run through a temperature programme, exactly: no step of integration.
 *
 * For every reaction g(α) = ∫A·exp(−E/RT)dt is a sum over the stretches of the programme: a difference of temperature
 * integrals over the rate where it heats, rate constant times duration where it holds. So conversion is carried over
 * from one stretch to the next, and α follows from g in closed form for any order.
 *
 * @throws {RangeError} A model that has no physical meaning.
 * @example
 * ```ts
 * import { trueMass } from "tg-hydrates";
 * const truth = trueMass({
 *   sample_mg: 10,
 *   // Sodium bicarbonate: Wu and Shih, Thermochim Acta 223:177–186 (1993).
 *   reactions: [{ loss_pct: 36.916, ln_A_per_min: Math.log(6.7e12), E_kJ_mol: 105.8 }],
 *   programme: { start_C: 25, segments: [{ to_C: 250, rate_K_per_min: 5 }] },
 * });
 * const { mass_mg } = truth.at(truth.minuteAt(250)!);
 * if (Math.abs(mass_mg - 6.3084) > 1e-9) throw new Error("all of it has decomposed");
 * ```
 */
export function trueMass(model: Model): TrueMass {
  checkModel(model);
  const legs = programmeLegs(model.programme);
  const { reactions, background = [], sample_mg } = model;
  const starts = reactions.map((reaction) => reducedTimes(reaction, legs));
  const hottest = [legs[0]!.from_K];
  for (const leg of legs) hottest.push(Math.max(hottest.at(-1)!, leg.to_K));
  const duration_min = legs.at(-1)!.to_min;

  const at = (minute: number): Moment => {
    if (!(minute >= 0 && minute <= duration_min)) {
      throw new RangeError(`The programme lasts from 0 to ${duration_min} min: ${minute} min is outside`);
    }
    let k = 0;
    while (k < legs.length - 1 && minute >= legs[k]!.to_min) k++;
    const leg = legs[k]!;
    const kelvin = minute === leg.to_min ? leg.to_K : leg.from_K + leg.rate * (minute - leg.from_min);
    let lost_pct = 0;
    for (let i = 0; i < reactions.length; i++) {
      const reaction = reactions[i]!;
      const reached = starts[i]![k]! + gained(reaction, leg, { kelvin, minute });
      lost_pct += reaction.loss_pct * (1 - remaining(reached, reaction.order ?? 1));
    }
    // The background follows the highest temperature so far: what has left does not come back on cooling.
    const highest_C = Math.max(hottest[k]!, kelvin) - zeroCelsius;
    for (const { from_C, to_C, loss_pct_per_C } of background) {
      lost_pct += loss_pct_per_C * Math.min(Math.max(highest_C - from_C, 0), to_C - from_C);
    }
    return { temperature_C: kelvin - zeroCelsius, mass_mg: sample_mg * (1 - lost_pct / 100) };
  };

  const minuteAt = (temperature_C: number): number | null => {
    const kelvin = temperature_C + zeroCelsius;
    for (const { from_K, to_K, from_min, rate } of legs) {
      if (kelvin >= Math.min(from_K, to_K) && kelvin <= Math.max(from_K, to_K)) {
        return rate === 0 ? from_min : from_min + (kelvin - from_K) / rate;
      }
    }
    return null;
  };
  return { duration_min, at, minuteAt };
}

/** g of one reaction at the start of every stretch. */
function reducedTimes(reaction: Reaction, legs: Leg[]): number[] {
  const values = [0];
  for (const leg of legs) {
    values.push(values.at(-1)! + gained(reaction, leg, { kelvin: leg.to_K, minute: leg.to_min }));
  }
  return values;
}

/** What g gains from the start of a stretch to a moment of it. */
function gained(reaction: Reaction, leg: Leg, moment: { kelvin: number; minute: number }): number {
  const { ln_A_per_min, E_kJ_mol } = reaction;
  if (leg.rate === 0) {
    return Math.exp(logRateConstant(reaction, leg.from_K)) * (moment.minute - leg.from_min);
  }
  const scale = ln_A_per_min - Math.log(Math.abs(leg.rate));
  const integral = (kelvin: number) => Math.exp(scale + logTemperatureIntegral(kelvin, E_kJ_mol));
  return Math.abs(integral(moment.kelvin) - integral(leg.from_K));
}

/** 1 − α from g(α) = ∫dα/(1 − α)ⁿ. */
function remaining(reached: number, order: number): number {
  if (order === 1) return Math.exp(-reached);
  const base = 1 - (1 - order) * reached;
  return base > 0 ? base ** (1 / (1 - order)) : 0;
}
