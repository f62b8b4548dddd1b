import { toCurve } from "../../src/curve/toCurve.ts";
import type { Curve } from "../../src/curve/types.ts";
import { fitPeaks } from "../../src/losses/fitPeaks.ts";
import type { PeakFitSpec } from "../../src/losses/fitTypes.ts";
import { placeReaction } from "../../src/simulate/placeReaction.ts";
import { simulateRun } from "../../src/simulate/simulateRun.ts";
import { makeRun } from "../makeRun.ts";
import { peakCurve } from "./peakRun.ts";

/** Areas of the two peaks, mg. */
export const AREAS = { a: 2.4, b: 0.8 };
const WIDTHS = { a: 34, b: 40 };
/** A first-order reaction of the forward model is met by this asymmetry. */
const SKEW = -0.31;

/** What the true peaks are, other than the protocol says. */
export const worlds = ["as stated", "5 % wider", "first order", "order 1.3"] as const;
export type World = (typeof worlds)[number];

/** One line of the table of bias against separation. */
export interface SeparationRow {
  world: World;
  separation_C: number;
  /** Separation over the mean width of the two peaks. */
  widths: number;
  verdict: string;
  /** Deviation of the fitted areas from the true ones and their standard uncertainty, % of the area; null where refused. */
  bias_pct: { a: number; b: number } | null;
  u_pct: { a: number; b: number } | null;
}

/** Two peaks, the second smaller, so far apart. */
export function pairSpec(separation: number): PeakFitSpec {
  const second = 120 + separation;
  return {
    peaks: [
      { name: "a", position_C: [105, 135], width_C: WIDTHS.a, asymmetry: SKEW },
      { name: "b", position_C: [second - 15, second + 15], width_C: WIDTHS.b, asymmetry: SKEW },
    ],
    from_C: 50,
    to_C: 300,
    baseline: "linear",
  };
}

/** A run of the two peaks with 1 µg of noise. */
export function pairCurve(separation: number, world: World): Curve {
  const position = { a: 120, b: 120 + separation };
  if (world === "as stated" || world === "5 % wider") {
    const wider = world === "5 % wider" ? 1.05 : 1;
    const peak = (name: "a" | "b") => ({
      area: AREAS[name],
      position: position[name],
      width: WIDTHS[name] * wider,
      asymmetry: SKEW,
    });
    return peakCurve([peak("a"), peak("b")], { noise: 0.001, seed: `${separation}` });
  }
  const order = world === "first order" ? 1 : 1.3;
  const reaction = (name: "a" | "b") =>
    placeReaction({ loss_pct: AREAS[name] / 0.4, peak_C: position[name], width_C: WIDTHS[name], order });
  const run = simulateRun(
    {
      sample_mg: 40,
      reactions: [reaction("a"), reaction("b")],
      background: [{ from_C: 30, to_C: 400, loss_pct_per_C: 0.004 }],
      programme: { start_C: 25, segments: [{ to_C: 400, rate_K_per_min: 10 }] },
    },
    { rows: 2500, noise_ug: 1, seed: separation },
  );
  return toCurve(makeRun(run.temperature_C, run.mass_mg, { time: run.time_s }), {
    grid: { step_C: 0.5 },
    smoothing: { width_C: 10, degree: 3 },
  });
}

/** Bias of fitted peaks against their separation, down to where every fit is refused. */
export function peakSeparation(world: World, separations: readonly number[]): SeparationRow[] {
  return separations.map((separation): SeparationRow => {
    const fit = fitPeaks(pairCurve(separation, world), pairSpec(separation));
    const widths = (2 * separation) / (WIDTHS.a + WIDTHS.b);
    const row = { world, separation_C: separation, widths };
    if (fit.verdict === "refused") return { ...row, verdict: fit.reason, bias_pct: null, u_pct: null };
    const [a, b] = fit.peaks;
    return {
      ...row,
      verdict: "fitted",
      bias_pct: { a: 100 * (a!.area / AREAS.a - 1), b: 100 * (b!.area / AREAS.b - 1) },
      u_pct: { a: (100 * a!.u) / a!.area, b: (100 * b!.u) / b!.area },
    };
  });
}

/** The table as text. */
export function separationTable(rows: readonly SeparationRow[]): string {
  const number = (value: number | undefined) => (value === undefined ? "–" : value.toFixed(2)).padStart(8);
  const head = "true peaks   sep./°C  widths  bias a/%    u a/%  bias b/%    u b/%  verdict";
  const lines = rows.map((row) =>
    [
      row.world.padEnd(11),
      row.separation_C.toFixed(0).padStart(8),
      row.widths.toFixed(2).padStart(7),
      number(row.bias_pct?.a),
      number(row.u_pct?.a),
      number(row.bias_pct?.b),
      number(row.u_pct?.b),
      ` ${row.verdict}`,
    ].join(" "),
  );
  return [head, ...lines].join("\n");
}
