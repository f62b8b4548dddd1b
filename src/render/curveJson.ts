import type { Sketch } from "../curve/sketch.ts";
import { toJson } from "./toJson.ts";

const order = { file: true, temperature_C: true, mass_pct: true, dtg_pct_per_C: true } as const;

/** One line of curves.ndjson, with its line break: the sketch of TG and DTG of a run with its file. */
export function curveJson(sketch: Sketch & { file: string }): string {
  return `${toJson(sketch, order)}\n`;
}
