import { type PhaseName, phases } from "../chemistry/phases.ts";
import { theoreticalLosses } from "../chemistry/theoreticalLosses.ts";
import type { ExampleCuring, ExampleMix } from "./exampleDesign.ts";
import { exampleSpecimen } from "./exampleSpecimen.ts";
import { type PhaseAmounts, phaseReactions } from "./phaseReactions.ts";
import { trueIndices } from "./trueIndices.ts";
import type { Programme } from "./types.ts";

/** One line of an example's truth: a window, a phase or a property of a cell. */
export interface TruthRow {
  mix: string;
  curing: string;
  curing_d: number | null;
  age_d: number;
  kind: "window" | "phase" | "property";
  /** Name of the window, of the phase or of the property. */
  name: string;
  /** Rule of a window; null for others. */
  rule: string | null;
  /** Loss by the rule `step`, % of the mass before heating; null but for a window. */
  loss_pct_initial: number | null;
  /** g per 100 g of ignited mass by the window's own rule, and by both; null but for a window. */
  index: number | null;
  index_step: number | null;
  index_area: number | null;
  /** Amount of the phase, g per 100 g; null but for a phase. */
  per_100g_ignited: number | null;
  per_100g_binder: number | null;
  /** Mean of the property, in its unit; null but for a property. */
  value: number | null;
  unit: string | null;
}

/** Programme of all runs of the example. */
export const exampleProgramme: Programme = { start_C: 25, segments: [{ to_C: 1000, rate_K_per_min: 10 }] };

/** Water that every dried specimen holds back, share of the mass of its solids. */
const adsorbed = 0.007;

/** The specimen as it is weighed in: its phases and the water it holds back. */
export function asWeighed(amounts: PhaseAmounts): PhaseAmounts {
  const solids = Object.values(amounts).reduce((sum, mass) => sum + mass, 0);
  return { ...amounts, "adsorbed-water": adsorbed * solids };
}

/**
 * What is true of a cell of the example: losses and indices of its mean specimen in the windows of the protocol csa, and the
 * amounts of its phases. From the chemistry that was put in and the exact forward model, not from any evaluation.
 */
export function exampleTruth(mix: ExampleMix, curing: ExampleCuring, age_d: number): TruthRow[] {
  const amounts = exampleSpecimen(mix, curing, { age_d });
  const model = { sample_mg: 100, reactions: phaseReactions(asWeighed(amounts)), programme: exampleProgramme };
  const { windows } = trueIndices(model);
  const cell = { mix: mix.mix, curing: curing.curing, curing_d: curing.curing_d, age_d };
  const none = { loss_pct_initial: null, index: null, index_step: null, index_area: null };
  const windowRows = windows.map(({ window, rule, step_mg, index_step, index_area }): TruthRow => {
    const index = rule === "area" ? index_area : index_step;
    const losses = { loss_pct_initial: step_mg, index, index_step, index_area };
    const others = { per_100g_ignited: null, per_100g_binder: null, value: null, unit: null };
    return { ...cell, kind: "window", name: window, rule, ...losses, ...others };
  });

  const present = Object.entries(amounts).filter(
    (entry): entry is [PhaseName, number] => Object.hasOwn(phases, entry[0]) && entry[1] > 0,
  );
  const lost = present.reduce((sum, [phase, mass]) => sum + (mass * theoreticalLosses(phase).totalPct) / 100, 0);
  const solids = Object.values(amounts).reduce((sum, mass) => sum + mass, 0);
  const phaseRows = present.map(([phase, mass]): TruthRow => {
    const per_100g_ignited = (100 * mass) / (solids - lost);
    const amount = { per_100g_ignited, per_100g_binder: mass, value: null, unit: null };
    return { ...cell, kind: "phase", name: phase, rule: null, ...none, ...amount };
  });
  return [...windowRows, ...phaseRows];
}
