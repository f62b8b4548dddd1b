import { type ReferenceSubstanceName, referenceSubstances } from "../chemistry/referenceSubstances.ts";
import { addWeight, evaluate, functional } from "../curve/functional.ts";
import { massAt } from "../curve/massAt.ts";
import type { Curve } from "../curve/types.ts";
import { UnreadableError } from "../errors.ts";
import { findPeak } from "../losses/findPeak.ts";
import type { Window } from "../losses/types.ts";
import { weighLoss } from "../losses/weighLoss.ts";
import { leastMass } from "../massLimits.ts";
import type { Measured } from "../measured.ts";
import type { CheckedNumber, CheckedStep, SubstanceCheck } from "./checkTypes.ts";
import { defaultUncertainty } from "./defaultUncertainty.ts";
import { measureIndex } from "./measureIndex.ts";
import { partSteps, type StepGroup } from "./partSteps.ts";
import { substanceSteps } from "./substanceSteps.ts";
import type { Uncertainty } from "./types.ts";

/** Options of {@link checkSubstance}. */
export interface CheckOptions {
  /** Largest deviation of a step, the residue or the closure, % of the mass at the start (common practice, no source). @default 0.3 */
  tolerance?: number;
  /** Assumed inputs of the budget. @default those of the protocol csa */
  uncertainty?: Uncertainty;
  /** Blank run that was taken off. @default none */
  blank?: string | null;
}

/**
 * Holds a run of a reference substance against its theoretical mass losses: each step and the residue with deviation, uncertainty
 * and verdict against a stated tolerance, and the mass closure. Steps are parted at the plateau between them; those without one
 * are judged together. Temperatures are shown, not judged.
 *
 * @param curve From `toCurve`.
 * @param substance One of the reference substances.
 * @throws {RangeError} A tolerance that is not above 0.
 *
 * @example
 * ```ts
 * import { checkSubstance, protocols, readRun, toCurve } from "tg-hydrates";
 * const rows = ["T/°C\tm/mg"];
 * for (let T = 30; T <= 960; T += 0.5) rows.push(`${T}\t${(20 - 8.7942 / (1 + Math.exp((720 - T) / 8))).toFixed(4)}`);
 * const run = readRun(new TextEncoder().encode(rows.join("\n")), { name: "calcite.txt" });
 * const { holds, steps } = checkSubstance(toCurve(run, protocols.csa), "calcium-carbonate");
 * if (!holds || Math.abs(steps[0]!.theory_pct - 43.971) > 0.001) throw new Error("8.794 mg of 20 mg are 43.971 %");
 * ```
 */
export function checkSubstance(
  curve: Curve,
  substance: ReferenceSubstanceName,
  options: CheckOptions = {},
): SubstanceCheck {
  const { tolerance = 0.3, uncertainty = defaultUncertainty, blank = null } = options;
  if (!(tolerance > 0 && Number.isFinite(tolerance))) {
    throw new RangeError(`Give a tolerance above 0 % of the mass, not ${tolerance}`);
  }
  const { run, initialMass } = curve;
  if (!(initialMass >= leastMass)) {
    const message = `the first mass is ${initialMass} ${run.massUnit}: a sample weighs more than nothing; tare the balance with the empty crucible`;
    throw new UnreadableError("no-initial-mass", message, { source: run.source.name });
  }
  const { label, formula, source } = referenceSubstances[substance];
  const { cautions } = substanceSteps[substance];
  const { groups, missed, flags } = partSteps(curve, substance);
  const context = { curve, uncertainty, file: curve.run.source.name, balance: null, blank };
  const initial = functional();
  addWeight(initial.readings, 0, 1);
  const reference = { value: curve.initialMass, weights: initial, terms: [] };
  const share = (window: Window): Measured => {
    const weights = weighLoss(curve, window, { rule: "step", peak: null });
    const loss = "missing" in weights ? weights : { weights, value: evaluate(curve, weights) };
    return measureIndex(context, { window, rule: "step", loss, peak: null, reference, bracket: null });
  };
  const judged = (measured_pct: Measured, theory_pct: number) => judge(measured_pct, theory_pct, tolerance);

  const measured = groups.map(({ steps, from_C, to_C }): CheckedStep => {
    const window: Window = { name: steps.map(({ name }) => name).join(" + "), from_C, to_C, rule: "step" };
    const theory = steps.reduce((sum, { lossPct }) => sum + lossPct, 0);
    const peak_C = findPeak(curve, window)?.temperature ?? null;
    const published_C = steps.length === 1 ? (steps[0]!.published_C ?? null) : null;
    return { name: window.name, from_C, to_C, peak_C, published_C, ...judged(share(window), theory) };
  });
  const steps = [
    ...measured,
    ...missed.map(({ name, lossPct, published_C = null }): CheckedStep => {
      const missing = judged({ missing: "step-not-covered" }, lossPct);
      return { name, from_C: null, to_C: null, peak_C: null, published_C, ...missing };
    }),
  ];
  const last = groups.at(-1);
  const { residue, closure } = balanceOf(curve, { last, complete: missed.length === 0, measured, share, judged });
  const numbers = [...steps, residue, closure];
  return {
    file: curve.run.source.name,
    ...{ substance, label, formula, source },
    tolerance_pct: tolerance,
    steps,
    residue,
    closure,
    holds: last !== undefined && numbers.every(({ verdict }) => verdict !== "does not hold"),
    cautions,
    flags,
  };
}

function judge(measured_pct: Measured, theory_pct: number, tolerance: number): CheckedNumber {
  if ("missing" in measured_pct) {
    return { theory_pct, measured_pct, deviation_pct: null, verdict: "not measured", clear: null };
  }
  const deviation_pct = measured_pct.value - theory_pct;
  const inside = Math.abs(deviation_pct) <= tolerance;
  const clear = Math.abs(Math.abs(deviation_pct) - tolerance) > 1.96 * (measured_pct.u ?? 0);
  return { theory_pct, measured_pct, deviation_pct, verdict: inside ? "holds" : "does not hold", clear };
}

/** Residue after the last measured step, and what the steps and the mass that is left add up to. */
function balanceOf(
  curve: Curve,
  of: {
    last: StepGroup | undefined;
    /** Whether every step was measured, so that the run's end belongs to the balance. */
    complete: boolean;
    measured: readonly CheckedStep[];
    share: (window: Window) => Measured;
    judged: (measured: Measured, theory: number) => CheckedNumber;
  },
): { residue: CheckedNumber; closure: CheckedNumber } {
  const { last, complete, measured, share, judged } = of;
  const atEnd = last && massAt(curve, last.to_C, "entering");
  if (!last || !atEnd) {
    const none: Measured = { missing: "step-not-covered" };
    return { residue: judged(none, 100), closure: judged(none, 100) };
  }
  const percent = (mass: number) => (100 * mass) / curve.initialMass;
  const whole = share({ name: "all", from_C: curve.pieces[0]!.from, to_C: last.to_C, rule: "step" });
  const left = percent(evaluate(curve, atEnd));
  const residue: Measured = "missing" in whole ? whole : { ...whole, value: left };
  // What leaves before the first step (moisture) and after the last one is not accounted for.
  const hold = curve.isothermals.find(({ position }) => position === "end");
  const final = complete ? percent(hold ? hold.leaving : curve.mass.at(-1)!) : left;
  const sum = measured.reduce((total, { measured_pct: m }) => total + ("missing" in m ? 0 : m.value), 0);
  return {
    residue: judged(residue, last.steps.at(-1)!.residuePct),
    closure: judged({ value: sum + final, u: null, terms: [] }, 100),
  };
}
