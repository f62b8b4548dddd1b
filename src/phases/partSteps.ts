import type { ReferenceSubstanceName } from "../chemistry/referenceSubstances.ts";
import { type TheoreticalStep, theoreticalSteps } from "../chemistry/theoreticalSteps.ts";
import type { Curve } from "../curve/types.ts";
import { type Flag, flag } from "../flags.ts";
import { substanceSteps } from "./substanceSteps.ts";

/** Between two steps the DTG must fall below this share of the lower peak beside it, or they are one. */
const PLATEAU = 0.02;
/** What stands higher than this share of the highest DTG of two steps is one of them. */
const PEAK = 0.05;
/** A step is over where the DTG is below this share of its peak. */
const OVER = 0.02;

/** Steps that are measured as one, with their edges. */
export interface StepGroup {
  steps: TheoreticalStep[];
  from_C: number;
  to_C: number;
}

/**
 * Parts a run of a reference substance at the plateaus between its steps, as far as the run goes.
 *
 * @returns Groups of steps in their order (several where no plateau parts them), the steps that the run does not show, and flags.
 */
export function partSteps(
  curve: Curve,
  substance: ReferenceSubstanceName,
): { groups: StepGroup[]; missed: TheoreticalStep[]; flags: Flag[] } {
  const theory = theoreticalSteps(substance);
  const { start_C, latest_C, between_C, end_C, reached_C } = substanceSteps[substance];
  const runStart = curve.pieces[0]!.from;
  const runEnd = curve.pieces.at(-1)!.to;
  const flags: Flag[] = [];
  const shown = runStart > latest_C ? 0 : reached_C.filter((T) => runEnd >= T).length;
  const missed = theory.slice(shown);
  if (missed.length > 0) {
    const names = missed.map(({ name }) => name).join(", ");
    const range = `${runStart.toFixed(0)} to ${runEnd.toFixed(0)} °C`;
    flags.push(flag("step-not-covered", `The heating from ${range} does not show: ${names}.`));
  }
  const groups: StepGroup[] = [];
  let open: StepGroup = { steps: [], from_C: Math.max(start_C, runStart), to_C: Number.NaN };
  for (const [i, step] of theory.slice(0, shown).entries()) {
    open.steps.push(step);
    const between = between_C[i];
    if (i === shown - 1) {
      // Up to the flattest place before a step that the run does not show, or to where this one is over.
      const flat = between && runEnd > between[0] ? flattest(curve, between) : null;
      groups.push({ ...open, to_C: Math.min(flat?.temperature ?? end_C[i]!, runEnd) });
      continue;
    }
    // The next step's peak is looked for up to where the plateau after it may begin.
    const beside = { from_C: open.from_C, to_C: between_C[i + 1]?.[0] ?? end_C[i + 1]! };
    const plateau = plateauBetween(curve, between!, beside);
    if (plateau === null) {
      flags.push(flag("steps-merged", `There is no plateau between ${step.name} and ${theory[i + 1]!.name}.`));
      continue;
    }
    groups.push({ ...open, to_C: plateau });
    open = { steps: [], from_C: plateau, to_C: Number.NaN };
  }
  for (const group of groups) {
    const ratio = slopeAt(curve, group.to_C) / highest(curve, group.from_C, group.to_C);
    if (ratio <= OVER) continue;
    const sentence = `At ${group.to_C.toFixed(0)} °C the step ${group.steps.map(({ name }) => name).join(" + ")} still goes on at ${(100 * ratio).toFixed(0)} % of its highest DTG.`;
    flags.push(flag("step-incomplete", sentence));
  }
  return { groups, missed, flags };
}

/**
 * The flattest place of a range that has a peak on either side; null where it is no plateau. What follows the last peak is flat too,
 * and is none.
 */
function plateauBetween(
  curve: Curve,
  [low, high]: readonly [number, number],
  { from_C, to_C }: { from_C: number; to_C: number },
): number | null {
  const tall = highest(curve, from_C, to_C);
  let best: { temperature: number; slope: number; lower: number } | null = null;
  for (const temperature of curve.temperature) {
    if (temperature < low || temperature > high) continue;
    const lower = Math.min(highest(curve, from_C, temperature), highest(curve, temperature, to_C));
    if (lower < PEAK * tall) continue;
    const slope = slopeAt(curve, temperature);
    if (best === null || slope < best.slope) best = { temperature, slope, lower };
  }
  return best !== null && best.slope <= PLATEAU * best.lower ? best.temperature : null;
}

/** Where the DTG of a range is lowest; null where the run does not reach the range. */
function flattest(curve: Curve, [low, high]: readonly [number, number]): { temperature: number; slope: number } | null {
  let found: { temperature: number; slope: number } | null = null;
  for (const temperature of curve.temperature) {
    if (temperature < low || temperature > high) continue;
    const slope = slopeAt(curve, temperature);
    if (found === null || slope < found.slope) found = { temperature, slope };
  }
  return found;
}

/** DTG as a mean over the smoothing width: a plateau is at least that wide, and the mean is quiet. */
function slopeAt(curve: Curve, T: number): number {
  const half = curve.options.smoothing.width_C / 2;
  const { temperature, dtg } = curve;
  let sum = 0;
  let n = 0;
  for (let k = 0; k < temperature.length; k++) {
    if (Math.abs(temperature[k]! - T) > half) continue;
    sum += dtg[k]!;
    n++;
  }
  return n === 0 ? 0 : sum / n;
}

function highest({ temperature, dtg }: Curve, from: number, to: number): number {
  let top = 0;
  for (let k = 0; k < temperature.length; k++) {
    if (temperature[k]! >= from && temperature[k]! <= to) top = Math.max(top, dtg[k]!);
  }
  return top;
}
