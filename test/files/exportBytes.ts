import { exportLayouts } from "../../src/simulate/exportLayouts.ts";
import { formatExport } from "../../src/simulate/formatExport.ts";
import { placeReaction } from "../../src/simulate/placeReaction.ts";
import { simulateRun } from "../../src/simulate/simulateRun.ts";

/** The bytes of a simulated export: 30 mg that lose `aft` % about 110 °C and 4 % about 270 °C, at 10 K/min. */
export function exportBytes(
  options: { aft?: number; to_C?: number; seed?: number; layout?: keyof typeof exportLayouts } = {},
): Uint8Array {
  const { aft = 10, to_C = 1000, seed = 1, layout = "tabs" } = options;
  const run = simulateRun(
    {
      sample_mg: 30,
      reactions: [
        placeReaction({ loss_pct: aft, peak_C: 110, width_C: 38 }),
        placeReaction({ loss_pct: 4, peak_C: 270, width_C: 40 }),
      ],
      programme: { start_C: 25, segments: [{ to_C, rate_K_per_min: 10 }] },
    },
    { rows: 1200, noise_ug: 1, seed },
  );
  return formatExport(run, exportLayouts[layout]);
}
