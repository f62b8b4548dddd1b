import { type PhaseName, phases } from "../chemistry/phases.ts";
import { theoreticalLosses } from "../chemistry/theoreticalLosses.ts";
import type { ExampleCuring, ExampleMix } from "./exampleDesign.ts";
import { exampleSpecimen } from "./exampleSpecimen.ts";
import { type PhaseAmounts, phaseReactions } from "./phaseReactions.ts";
import { trueIndices } from "./trueIndices.ts";
import type { Programme } from "./types.ts";

/** One line of an example's truth: a window or a phase of a cell. */
export interface TruthRow {
  mix: string;
  curing: string;
  curing_d: number | null;
  age_d: number;
  kind: "window" | "phase";
  /** Name of the window or of the phase. */
  name: string;
  /** Rule of the window; null for a phase. */
  rule: string | null;
  /** Loss by the rule `step`, % of the mass before heating; null for a phase. */
  loss_pct_initial: number | null;
  /** g per 100 g of ignited mass by the window's own rule, and by both; null for a phase. */
  index: number | null;
  index_step: number | null;
  index_area: number | null;
  /** Amount of the phase, g per 100 g; null for a window. */
  per_100g_ignited: number | null;
  per_100g_binder: number | null;
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
    return { ...cell, kind: "window", name: window, rule, ...losses, per_100g_ignited: null, per_100g_binder: null };
  });

  const present = Object.entries(amounts).filter(
    (entry): entry is [PhaseName, number] => Object.hasOwn(phases, entry[0]) && entry[1] > 0,
  );
  const lost = present.reduce((sum, [phase, mass]) => sum + (mass * theoreticalLosses(phase).totalPct) / 100, 0);
  const solids = Object.values(amounts).reduce((sum, mass) => sum + mass, 0);
  const phaseRows = present.map(([phase, mass]): TruthRow => {
    const per_100g_ignited = (100 * mass) / (solids - lost);
    return { ...cell, kind: "phase", name: phase, rule: null, ...none, per_100g_ignited, per_100g_binder: mass };
  });
  return [...windowRows, ...phaseRows];
}
