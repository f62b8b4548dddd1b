import type { ReferenceSubstanceName } from "../chemistry/referenceSubstances.ts";

/** Where the steps of a reference substance are looked for. */
export interface SubstanceSteps {
  /** Where the first step may begin: what leaves before is moisture, °C. */
  start_C: number;
  /** A run that starts above it may have lost part of the first step, °C. */
  latest_C: number;
  /** Between one step and the next: range in which the plateau is looked for, °C. */
  between_C: [number, number][];
  /** Where each step is over at the latest; a run that ends before `reached_C` does not show the step, °C. */
  end_C: number[];
  reached_C: number[];
  /** What to mind, in sentences. */
  cautions: string[];
}

const poorTemperature =
  "Gas, holder and heating rate shift these steps: take the masses only, do not calibrate the temperature by them.";

/**
 * Ranges about the published positions (chemistry/referenceSubstances.ts), wide enough for 1 to 20 K/min and open crucibles: doubling
 * the rate moves a step by 10–30 °C (Kissinger). Common practice, no source.
 */
export const substanceSteps: Readonly<Record<ReferenceSubstanceName, SubstanceSteps>> = {
  "calcium-oxalate-monohydrate": {
    start_C: 60,
    latest_C: 100,
    between_C: [
      [200, 400],
      [500, 640],
    ],
    end_C: [400, 640, 950],
    reached_C: [250, 560, 780],
    cautions: [
      "The second step releases carbon monoxide: vent the furnace. In air it burns, and the sample may be hotter than shown.",
      "Carbon dioxide in the gas shifts the third step up.",
    ],
  },
  "copper-sulfate-pentahydrate": {
    start_C: 25,
    latest_C: 45,
    between_C: [
      [70, 125],
      [120, 210],
      [290, 560],
      [780, 900],
    ],
    end_C: [125, 210, 450, 850, 1100],
    reached_C: [110, 160, 290, 800, 1000],
    cautions: [
      poorTemperature,
      "Sulfur oxides leave above about 600 °C: stop at 400 °C unless the furnace is vented for them.",
    ],
  },
  "sodium-bicarbonate": {
    start_C: 40,
    latest_C: 80,
    between_C: [],
    end_C: [300],
    reached_C: [200],
    cautions: [
      "Commercial powders show a small step before the main one (Guarini et al., J Therm Anal 44:31, 1995); both are counted.",
    ],
  },
  "calcium-carbonate": {
    start_C: 200,
    latest_C: 500,
    between_C: [],
    end_C: [950],
    reached_C: [780],
    cautions: [
      "Carbon dioxide in the gas shifts the step up: purge with dry gas free of it.",
      "The residue is caustic lime and takes up water and carbon dioxide on cooling.",
    ],
  },
  gypsum: {
    start_C: 50,
    latest_C: 80,
    between_C: [[120, 180]],
    end_C: [180, 300],
    reached_C: [150, 200],
    cautions: [
      poorTemperature,
      "The two steps part only slowly heated and in a covered crucible; up to 0.15 mol of water may stay to above 250 °C.",
    ],
  },
};
