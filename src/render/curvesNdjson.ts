import type { Sketch } from "../curve/sketch.ts";
import { toJson } from "./toJson.ts";

const order = { file: true, temperature_C: true, mass_pct: true, dtg_pct_per_C: true } as const;

/**
 * curves.ndjson: one line of JSON per run with its file and the sketch of its TG and DTG.
 *
 * @param sketches In the order in which they shall be written.
 * @returns Line by line, so that thousands of runs need not stand in memory twice.
 */
export function* curvesNdjson(sketches: Iterable<Sketch & { file: string }>): Generator<string> {
  for (const sketch of sketches) yield curveJson(sketch);
}

/** One line of {@link curvesNdjson}, with its line break. */
export function curveJson(sketch: Sketch & { file: string }): string {
  return `${toJson(sketch, order)}\n`;
}
