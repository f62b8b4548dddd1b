import type { Sketch } from "../curve/sketch.ts";
import { jsonBytes } from "./jsonBytes.ts";

const order = { file: true, temperature_C: true, mass_pct: true, dtg_pct_per_C: true } as const;

/** One line of curves.ndjson, UTF-8, with its line break: the sketch of TG and DTG of a run with its file. */
export function curveJson(sketch: Sketch & { file: string }): Uint8Array<ArrayBuffer> {
  return jsonBytes(sketch, order, "\n");
}
