import { exportLayouts } from "../../dist/simulate/exportLayouts.js";
import { formatExport } from "../../dist/simulate/formatExport.js";
import { placeReaction } from "../../dist/simulate/placeReaction.js";
import { simulateRun } from "../../dist/simulate/simulateRun.js";

/**
 * Text of some invented runs of a hydrated paste, tab-separated, 25–1000 °C at 10 K/min with 1 µg of noise.
 *
 * @param {{ runs: number, rows: number, seed: number }} options
 * @returns {Uint8Array[]}
 */
export function campaignTexts({ runs, rows, seed }) {
  return Array.from({ length: runs }, (_, i) => {
    const model = {
      sample_mg: 30,
      reactions: [
        placeReaction({ loss_pct: 12 + i / 2, peak_C: 115, width_C: 35 }),
        placeReaction({ loss_pct: 5, peak_C: 265, width_C: 30 }),
        placeReaction({ loss_pct: 3, peak_C: 700, width_C: 40 }),
      ],
      programme: { start_C: 25, segments: [{ to_C: 1000, rate_K_per_min: 10 }] },
    };
    return formatExport(simulateRun(model, { rows, noise_ug: 1, seed: `${seed}/${i}` }), exportLayouts.tabs);
  });
}
