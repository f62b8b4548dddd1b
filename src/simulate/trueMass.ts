import { checkModel } from "./checkModel.ts";
import { gasConstant, zeroCelsius } from "./constants.ts";
import { logRateConstant } from "./logRateConstant.ts";
import { type Leg, programmeLegs } from "./programmeLegs.ts";
import { scaledE2 } from "./scaledE2.ts";
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
  const progress = reactions.map((reaction) => progressOf(reaction, legs));
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
      const reached = progress[i]![k]!(kelvin, minute);
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
    for (const { from_K, to_K, from_min, to_min, rate } of legs) {
      if (kelvin >= Math.min(from_K, to_K) && kelvin <= Math.max(from_K, to_K)) {
        return rate === 0 ? from_min : Math.min(from_min + (kelvin - from_K) / rate, to_min);
      }
    }
    return null;
  };
  return { duration_min, at, minuteAt };
}

/** g of one reaction inside a stretch. */
type Progress = (kelvin: number, minute: number) => number;

/** g of one reaction in every stretch, carried over from one to the next. */
function progressOf(reaction: Reaction, legs: Leg[]): Progress[] {
  let reached = 0;
  return legs.map((leg) => {
    const inside = progressIn(reaction, leg, reached);
    reached = inside(leg.to_K, leg.to_min);
    return inside;
  });
}

function progressIn(reaction: Reaction, leg: Leg, before: number): Progress {
  if (leg.rate === 0) {
    const constant = Math.exp(logRateConstant(reaction, leg.from_K));
    return (_, minute) => before + constant * (minute - leg.from_min);
  }
  const start = overRate(reaction, leg, leg.from_K);
  return (kelvin) => before + Math.abs(overRate(reaction, leg, kelvin) - start);
}

/** A/β·∫₀ᵀ exp(−E/RT′)dT′. */
function overRate(reaction: Reaction, leg: Leg, kelvin: number): number {
  const { E_kJ_mol, order = 1 } = reaction;
  const atMost = logRateConstant(reaction, kelvin) + Math.log(kelvin / Math.abs(leg.rate));
  // T·E₂(x)·eˣ lies between T/(x + 2) and T: far below and, for first order, far above one nothing more need be known.
  if (atMost < -50) return 0;
  const x = (E_kJ_mol * 1000) / (gasConstant * kelvin);
  const atLeast = atMost - Math.log(x + 2);
  if (order === 1 && atLeast > 10) return Math.exp(Math.min(atLeast, 700));
  return Math.exp(atMost + Math.log(scaledE2(x)));
}

/** 1 − α from g(α) = ∫dα/(1 − α)ⁿ. */
function remaining(reached: number, order: number): number {
  if (order === 1) return Math.exp(-reached);
  const base = 1 - (1 - order) * reached;
  return base > 0 ? base ** (1 / (1 - order)) : 0;
}
