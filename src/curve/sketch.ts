import type { Curve } from "./types.ts";

/** TG and DTG of a run for the eye: at most `points` rows, peaks kept. Plain JSON data. */
export interface Sketch {
  /** °C */
  temperature_C: number[];
  /** % of the initial mass. */
  mass_pct: number[];
  /** % of the initial mass per °C; positive while mass is lost. */
  dtg_pct_per_C: number[];
}

/**
 * Thins a curve for drawing: of every bin the grid point with the most extreme DTG is kept (largest distance from the
 * line through its neighbours), so that peaks stand at their true height.
 *
 * @param options `points`: how many rows at most. @default 300
 *
 * @example
 * ```ts
 * import { readRun, sketch, toCurve } from "tg-hydrates";
 * const rows = ["T/°C\tm/mg"];
 * for (let T = 30; T <= 300; T += 0.5) rows.push(`${T}\t${(20 - 2 / (1 + Math.exp((150 - T) / 5))).toFixed(4)}`);
 * const run = readRun(new TextEncoder().encode(rows.join("\n")));
 * const curve = toCurve(run, { grid: { step_C: 0.5 }, smoothing: { width_C: 10, degree: 3 } });
 * const { temperature_C, dtg_pct_per_C } = sketch(curve, { points: 50 });
 * if (temperature_C.length !== 50 || Math.max(...dtg_pct_per_C) < 0.4) throw new Error("thinned, with its peak");
 * ```
 */
export function sketch(curve: Curve, options: { points?: number } = {}): Sketch {
  const { points = 300 } = options;
  const n = curve.temperature.length;
  const scale = 100 / curve.initialMass;
  const kept = n <= points ? Array.from({ length: n }, (_, k) => k) : thin(curve, points);
  return {
    temperature_C: kept.map((k) => curve.temperature[k]!),
    mass_pct: kept.map((k) => curve.mass[k]! * scale),
    dtg_pct_per_C: kept.map((k) => curve.dtg[k]! * scale),
  };
}

function thin({ dtg }: Curve, points: number): number[] {
  const n = dtg.length;
  const bins = points - 2;
  const kept = [0];
  for (let bin = 0; bin < bins; bin++) {
    const from = 1 + Math.floor((bin * (n - 2)) / bins);
    const to = 1 + Math.floor(((bin + 1) * (n - 2)) / bins);
    const before = dtg[from - 1]!;
    const after = dtg[Math.min(to, n - 1)]!;
    let best = from;
    let furthest = -1;
    for (let k = from; k < to; k++) {
      const line = before + ((after - before) * (k - from + 1)) / (to - from + 1);
      const distance = Math.abs(dtg[k]! - line);
      if (distance > furthest) {
        furthest = distance;
        best = k;
      }
    }
    kept.push(best);
  }
  kept.push(n - 1);
  return kept;
}
