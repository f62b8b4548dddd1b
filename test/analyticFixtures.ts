import { molarMass } from "../src/chemistry/molarMass.ts";
import { theoreticalLosses } from "../src/chemistry/theoreticalLosses.ts";
import { exportLayouts } from "../src/simulate/exportLayouts.ts";
import { type ExportLayout, formatExport } from "../src/simulate/formatExport.ts";
import { placeReaction } from "../src/simulate/placeReaction.ts";
import { simulateRun } from "../src/simulate/simulateRun.ts";
import type { Background, Model } from "../src/simulate/types.ts";

/** A specimen whose answers are known exactly, as a file that the command can read. */
export interface AnalyticFixture {
  /** Name of the file. */
  file: string;
  bytes: Uint8Array<ArrayBuffer>;
  /** Its row of the mix table: columns and cells. */
  mix: Record<string, string | number>;
  /** Windows of the protocol that it is made for, with the step in each, % of the initial mass. */
  windows: { name: string; from_C: number; to_C: number; step_pct: number }[];
  /** % of the initial mass. */
  residue_pct: number;
}

/** A loss that begins and ends inside one window. */
interface Step {
  name: string;
  window: string;
  /** % of the initial mass. */
  loss_pct: number;
  peak_C: number;
}

interface Recipe {
  sample_mg?: number;
  steps: Step[];
  background?: Background;
  mix?: Record<string, string | number>;
  windows?: Record<string, readonly [from_C: number, to_C: number]>;
}

/** The windows of the protocol csa that do not contain one another. */
const csa = { "aft-afm": [50, 220], ah3: [220, 350], "ch-range": [400, 500], carbonate: [600, 850] } as const;

/** Water or carbon dioxide of a phase that makes up `pct` of the whole, % of the whole. */
const all = (phase: string, pct: number) => (pct * theoreticalLosses(phase).totalPct) / 100;
const moles = (phase: string, pct: number, count: number) =>
  (pct * count * molarMass("H2O")) / theoreticalLosses(phase).molarMass;

const portlandite = (pct: number): Step => ({
  name: "portlandite",
  window: "ch-range",
  loss_pct: all("portlandite", pct),
  peak_C: 450,
});
const calcite = (pct: number): Step => ({
  name: "calcite",
  window: "carbonate",
  loss_pct: all("calcite", pct),
  peak_C: 720,
});
const ah3 = (pct: number): Step => ({ name: "AH3", window: "ah3", loss_pct: all("ah3", pct), peak_C: 285 });
const ettringite = (pct: number): Step => ({
  name: "ettringite",
  window: "aft-afm",
  loss_pct: all("ettringite", pct),
  peak_C: 115,
});
const monosulfate = (pct: number): Step => ({
  name: "monosulfate",
  window: "aft-afm",
  loss_pct: all("monosulfate", pct),
  peak_C: 170,
});

const recipes: Record<string, Recipe> = {
  // 50 mg of 25 % portlandite, 10 % calcite, 65 % inert.
  FX1: { sample_mg: 50, steps: [portlandite(25), calcite(10)] },
  // The same on a background of 0.002 %/°C across the window and the bands that carry its baseline.
  FX1b: {
    sample_mg: 50,
    steps: [portlandite(25), calcite(10)],
    background: { from_C: 385, to_C: 515, loss_pct_per_C: 0.002 },
  },
  // 40 % ettringite, 10 % monosulfate, 15 % AH3, 5 % calcite, 30 % inert.
  FX2: { steps: [ettringite(40), monosulfate(10), ah3(15), calcite(5)] },
  // The same with the six hydroxyl waters of ettringite and of monosulfate in the window of AH3.
  FX2b: {
    steps: [
      { name: "ettringite", window: "aft", loss_pct: moles("ettringite", 40, 26), peak_C: 100 },
      { name: "monosulfate", window: "afm", loss_pct: moles("monosulfate", 10, 6), peak_C: 190 },
      { name: "hydroxyl of ettringite", window: "ah3", loss_pct: moles("ettringite", 40, 6), peak_C: 295 },
      { name: "hydroxyl of monosulfate", window: "ah3", loss_pct: moles("monosulfate", 10, 6), peak_C: 290 },
      ah3(15),
      calcite(5),
    ],
    windows: { aft: [50, 150], afm: [150, 230], ah3: [230, 350], carbonate: [600, 850] },
  },
  // 80 % clinker (70 % ye'elimite) and 20 % gypsum, ye'elimite fully hydrated: 72.900 g ettringite, 20.967 g monosulfate and
  // 28.632 g AH3 in 146.499 g (test/chemistry/reactions.test.ts).
  FX3: {
    steps: [ettringite(7290 / 146.499), monosulfate(2096.7 / 146.499), ah3(2863.2 / 146.499)],
    mix: { w_b: 0.5, loi_binder_pct: 0.2 * theoreticalLosses("gypsum").waterPct, yeelimite_pct: 56, gypsum_pct: 20 },
  },
  // Mortar of three parts inert sand per binder (ignited), 5 % portlandite, residue 93 %.
  FX4: {
    steps: [
      portlandite(5),
      { name: "other water", window: "aft-afm", loss_pct: 7 - all("portlandite", 5), peak_C: 120 },
    ],
    mix: { loi_binder_pct: 0, sand_binder_ignited: 3 },
  },
};

/** Names of the fixtures. */
export const analyticNames: readonly string[] = Object.keys(recipes);

/** The layout `tabs` with digits enough that printing adds nothing. */
const layout: ExportLayout = {
  ...exportLayouts.tabs,
  columns: exportLayouts.tabs.columns.map((column) => ({ ...column, decimals: 6 })),
};

/**
 * A run of a specimen of known composition: 25 to 1000 °C at 10 K/min, 5,000 readings, no noise, every loss 6 °C wide and over well
 * inside its window. Compositions are invented; the losses are arithmetic from published atomic weights.
 */
export function analyticFixture(name: string): AnalyticFixture {
  const { sample_mg = 30, steps, background, mix = {}, windows = csa } = recipes[name]!;
  const model: Model = {
    sample_mg,
    reactions: steps.map(({ name, loss_pct, peak_C }) => placeReaction({ name, loss_pct, peak_C, width_C: 6 })),
    background: background === undefined ? [] : [background],
    programme: { start_C: 25, segments: [{ to_C: 1000, rate_K_per_min: 10 }] },
  };
  /** What the background loses between two temperatures, %. */
  const slow = (from: number, to: number) => {
    if (background === undefined) return 0;
    const { from_C, to_C, loss_pct_per_C } = background;
    return loss_pct_per_C * Math.max(0, Math.min(to, to_C) - Math.max(from, from_C));
  };
  const lost = (chosen: Step[]) => chosen.reduce((sum, { loss_pct }) => sum + loss_pct, 0);
  return {
    file: `${name}.txt`,
    bytes: formatExport(simulateRun(model, { rows: 5000 }), layout),
    mix: { mix: name, ...mix },
    windows: Object.entries(windows).map(([window, [from_C, to_C]]) => ({
      name: window,
      from_C,
      to_C,
      step_pct: lost(steps.filter((step) => step.window === window)) + slow(from_C, to_C),
    })),
    residue_pct: 100 - lost(steps) - slow(0, 1000),
  };
}
