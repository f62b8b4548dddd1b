import { addTo, evaluate, type Functional, functional } from "../curve/functional.ts";
import { noiseOf } from "../curve/noiseOf.ts";
import type { Curve } from "../curve/types.ts";
import type { Peak } from "../losses/findPeak.ts";
import type { Rule, Weighed, Window } from "../losses/types.ts";
import { weighLoss } from "../losses/weighLoss.ts";
import type { Measured, Term } from "../measured.ts";
import { combineTerms } from "./combineTerms.ts";
import { noiseTerm } from "./noiseTerm.ts";
import type { Reference } from "./referenceMass.ts";
import type { Uncertainty } from "./types.ts";

/**
 * For a normal error δ of the temperature the even part b·δ² of an effect has the mean square 3b²u⁴. Five in place of
 * three keeps 95 % intervals above 94 % also where the odd part is about five times the even one (by simulation; with
 * three they fall to 92.9 % there): the effects are measured at the shifted place, not at the true one.
 */
const CURVATURE = Math.sqrt(5);

/** What the budget of an index needs beside the loss. */
export interface BudgetContext {
  curve: Curve;
  uncertainty: Uncertainty;
  /** File of the run, the balance it was measured on, and its blank run, for the keys of the terms. */
  file: string;
  balance: string | null;
  blank: string | null;
}

/** One loss to be turned into an index. */
export interface IndexInput {
  window: Window;
  rule: Rule;
  loss: Weighed;
  peak: Peak | null;
  reference: Reference | { missing: string };
  /** Step less area of the window, unit of the run's mass; null where the area is missing. */
  bracket: number | null;
}

/**
 * Loss and reference mass → index in g per 100 g with its budget (JCGM 100:2008).
 *
 * Terms: `noise` through the actual weights of grid, smoothing and rule, with the covariance of loss and reference
 * mass, never below the print resolution d/√12; `temperature`, a finite shift of both edges, odd and even part (a
 * linear term alone is too small for the rule area); `buoyancy` of the shape 1 − T₀/T; the relative terms of the
 * reference mass; and on request the choice of the baseline, (step − area)/√12.
 */
export function measureIndex(context: BudgetContext, input: IndexInput): Measured {
  const { loss, reference } = input;
  if ("missing" in loss) return loss;
  if ("missing" in reference) return reference;
  const value = (100 * loss.value) / reference.value;
  const whole = addTo(functional(), loss.weights, 100 / reference.value);
  if (reference.weights) addTo(whole, reference.weights, -value / reference.value);
  const scale = 100 / reference.value;
  const terms: Term[] = [
    noiseTerm(context, addTo(whole, peakJitter(context.curve, input), scale), scale),
    ...temperatureTerms(context, input, scale),
    buoyancyTerm(context, whole),
    ...reference.terms.map(({ cause, relative, key }) => ({ cause, effect: -value * relative + 0, key })),
  ];
  if (context.uncertainty.baseline_choice && input.bracket !== null) {
    const effect = (100 * input.bracket) / reference.value / Math.sqrt(12);
    terms.push({ cause: "baseline", effect, key: `baseline:${input.window.name}` });
  }
  return { value, u: combineTerms(terms), terms };
}

/** A tangent changes with the temperature of its peak too: dL/dT of the peak times what the readings do to it. */
function peakJitter(curve: Curve, { window, rule, peak }: IndexInput): Functional {
  if (rule !== "tangent" || peak === null) return functional();
  const at = (temperature: number) => {
    const weights = weighLoss(curve, window, { rule, peak: temperature });
    return "missing" in weights ? 0 : evaluate(curve, weights);
  };
  return addTo(functional(), peak.jitter, at(peak.temperature + 0.5) - at(peak.temperature - 0.5));
}

function temperatureTerms({ curve, uncertainty, balance }: BudgetContext, input: IndexInput, scale: number): Term[] {
  const { window, rule, loss } = input;
  const u = uncertainty.temperature_u_C;
  if (u === 0 || "missing" in loss) return [];
  const peak = input.peak?.temperature ?? null;
  const shifted = (shift: number): Functional | null => {
    const weights = weighLoss(curve, window, { rule, peak, shift });
    return "missing" in weights ? null : addTo(weights, loss.weights, -1);
  };
  const up = shifted(u);
  const down = shifted(-u);
  const key = `temperature:${balance ?? "the balance"}`;
  if (up === null || down === null) {
    // Where the run ends within the shift, the side that is there stands for both.
    const odd = up ?? (down === null ? functional() : addTo(functional(), down, -1));
    return [{ cause: "temperature", effect: scale * withoutNoise(curve, odd, 1), key }];
  }
  const odd = addTo(addTo(functional(), up, 0.5), down, -0.5);
  const even = addTo(addTo(functional(), up, 0.5), down, 0.5);
  return [
    { cause: "temperature", effect: scale * withoutNoise(curve, odd, 1), key },
    {
      cause: "temperature, curvature",
      effect: scale * CURVATURE * withoutNoise(curve, even, 2),
      key: `${key}, squared`,
    },
  ];
}

/**
 * An effect of a shift is itself measured with noise, which would be counted twice: its square less its variance, and
 * none where it does not stand out of the noise by `least` standard deviations (two for the even part, a second
 * difference that is mostly noise).
 */
function withoutNoise(curve: Curve, effect: Functional, least: number): number {
  const value = evaluate(curve, effect);
  const noise = noiseOf(curve, effect);
  return Math.abs(value) <= least * noise ? 0 : Math.sign(value) * Math.sqrt(value * value - noise * noise);
}

function buoyancyTerm({ curve, uncertainty, balance, blank }: BudgetContext, whole: Functional): Term {
  const { run } = curve;
  const start = run.temperature[0]! + 273.15;
  const shape = (T: number) => 1 - start / (T + 273.15);
  let effect = 0;
  for (let i = 0; i < whole.mass.at.length; i++)
    effect += whole.mass.w[i]! * shape(curve.temperature[whole.mass.at[i]!]!);
  for (let i = 0; i < whole.readings.at.length; i++) {
    effect += whole.readings.w[i]! * shape(run.temperature[whole.readings.at[i]!]!);
  }
  const amplitude = blank === null ? uncertainty.buoyancy_u_mg : uncertainty.blank_u_mg;
  // A run in % of its initial mass takes the amplitude in the same unit.
  const unit = run.massUnit === "mg" ? 1 : 100 / (run.initialMass ?? uncertainty.assumed_mass_mg);
  const key = blank === null ? `buoyancy:${balance ?? "the balance"}` : `blank:${blank}`;
  // + 0: an effect of −0 would not survive JSON.
  return { cause: "buoyancy", effect: effect * amplitude * unit + 0, key };
}
