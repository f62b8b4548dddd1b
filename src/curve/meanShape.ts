import type { Curve } from "./types.ts";

/** DTG of a run in % of its initial mass per °C, on grid points `firstPoint`, `firstPoint` + 1, … */
export interface Shape {
  firstPoint: number;
  dtg: Float64Array;
  /** Standard deviation of one value. */
  noise: number;
}

/** Sums of shapes by regime; grows with the regimes, not with the runs. */
export interface ShapeSums {
  regimes: Map<string, { firstPoint: number; sum: Float64Array; count: Uint32Array; variance: number; runs: number }>;
}

/** Mean DTG of a campaign, every regime weighted equally. */
export interface MeanShape extends Shape {
  regimes: number;
  runs: number;
}

/** The range of grid points that sums are kept for: −50 to 1500 °C at the finest step would be 31,000. */
const LONGEST = 40_000;

/**
 * What the mean curve needs of a run: plain data that can leave a worker.
 *
 * @example
 * ```ts
 * import { readRun, shapeOf, toCurve } from "tg-hydrates";
 * const rows = ["T/°C\tm/mg"];
 * for (let T = 30; T <= 300; T += 0.5) rows.push(`${T}\t${(20 - 2 / (1 + Math.exp((150 - T) / 5))).toFixed(4)}`);
 * const run = readRun(new TextEncoder().encode(rows.join("\n")));
 * const curve = toCurve(run, { grid: { step_C: 0.5 }, smoothing: { width_C: 10, degree: 3 } });
 * const { firstPoint, dtg } = shapeOf(curve);
 * const top = dtg.indexOf(Math.max(...dtg));
 * if (Math.abs((firstPoint + top) * 0.5 - 150) > 1) throw new Error("the DTG is largest at 150 °C");
 * ```
 */
export function shapeOf(curve: Curve): Shape {
  const { pieces, options, dtg, initialMass } = curve;
  const firstPoint = pieces[0]!.firstPoint;
  const last = pieces.at(-1)!;
  const values = new Float64Array(last.firstPoint + last.gridEnd - last.gridFirst - firstPoint).fill(Number.NaN);
  for (const piece of pieces) {
    for (let k = piece.gridFirst; k < piece.gridEnd; k++) {
      values[piece.firstPoint + k - piece.gridFirst - firstPoint] = (100 * dtg[k]!) / initialMass;
    }
  }
  // Variance of a cubic or quadratic derivative over w points of white noise: 12/(w³ − w) per step² for degree 1–2, about
  // six times that for degree 3–4 (Savitzky and Golay 1964); readings per step make a grid value.
  const { step_C: step } = options.grid;
  const w = options.smoothing.width_C / step + 1;
  const perStep = Math.max((last.end - pieces[0]!.first) / values.length, 0.5);
  const factor = options.smoothing.degree >= 3 ? 6 : 1;
  // Neighbours that err alike average out less: the long-run variance of noise of lag-one correlation ρ.
  const { sd, lagOne } = curve.noise;
  const longRun = sd * Math.sqrt((1 + lagOne) / (1 - lagOne));
  const noise = (longRun / Math.sqrt(perStep)) * Math.sqrt((12 * factor) / (w ** 3 - w)) * (100 / initialMass);
  return { firstPoint, dtg: values, noise: noise / step };
}

/**
 * Adds a run to the sums, which are changed.
 *
 * @example
 * ```ts
 * import { addShape, meanShape, readRun, shapeOf, toCurve } from "tg-hydrates";
 * const rows = ["T/°C\tm/mg"];
 * for (let T = 30; T <= 300; T += 0.5) rows.push(`${T}\t${(20 - 2 / (1 + Math.exp((150 - T) / 5))).toFixed(4)}`);
 * const run = readRun(new TextEncoder().encode(rows.join("\n")));
 * const curve = toCurve(run, { grid: { step_C: 0.5 }, smoothing: { width_C: 10, degree: 3 } });
 * const sums = { regimes: new Map() };
 * addShape(sums, "sealed", shapeOf(curve));
 * if (meanShape(sums)!.runs !== 1) throw new Error("one run of one regime");
 * ```
 */
export function addShape(sums: ShapeSums, regime: string, { firstPoint, dtg, noise }: Shape): void {
  if (dtg.length > LONGEST) return;
  let own = sums.regimes.get(regime);
  if (!own) {
    own = { firstPoint, sum: new Float64Array(0), count: new Uint32Array(0), variance: 0, runs: 0 };
    sums.regimes.set(regime, own);
  }
  const from = Math.min(own.firstPoint, firstPoint);
  const to = Math.max(own.firstPoint + own.sum.length, firstPoint + dtg.length);
  if (to - from !== own.sum.length) {
    const sum = new Float64Array(to - from);
    const count = new Uint32Array(to - from);
    sum.set(own.sum, own.firstPoint - from);
    count.set(own.count, own.firstPoint - from);
    own.sum = sum;
    own.count = count;
    own.firstPoint = from;
  }
  for (let i = 0; i < dtg.length; i++) {
    if (Number.isNaN(dtg[i]!)) continue;
    own.sum[firstPoint + i - from]! += dtg[i]!;
    own.count[firstPoint + i - from]!++;
  }
  own.variance += noise * noise;
  own.runs++;
}

/**
 * Mean DTG over the range that every regime covers, each regime weighted equally, so that the one with most specimens
 * does not place the windows of all. NaN where a regime has no value: a gap is no valley.
 *
 * @returns null where nothing is covered by all.
 *
 * @example
 * ```ts
 * import { addShape, meanShape, protocols, readRun, settle, shapeOf, toCurve } from "tg-hydrates";
 * const rows = ["T/°C\tm/mg"];
 * for (let T = 30; T <= 300; T += 0.5) rows.push(`${T}\t${(20 - 2 / (1 + Math.exp((150 - T) / 5))).toFixed(4)}`);
 * const run = readRun(new TextEncoder().encode(rows.join("\n")));
 * const curve = toCurve(run, { grid: { step_C: 0.5 }, smoothing: { width_C: 10, degree: 3 } });
 * const sums = { regimes: new Map() };
 * for (const regime of ["sealed", "air"]) addShape(sums, regime, shapeOf(curve));
 * const { settled } = settle(protocols["csa-amounts"], { mean: meanShape(sums) });
 * if (settled.resolved![0]!.at_C !== null) throw new Error("one peak is not parted");
 * ```
 */
export function meanShape({ regimes }: ShapeSums): MeanShape | null {
  const all = [...regimes.entries()].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, regime]) => regime);
  if (all.length === 0) return null;
  const first = Math.max(...all.map((regime) => regime.firstPoint));
  const end = Math.min(...all.map((regime) => regime.firstPoint + regime.sum.length));
  if (end - first < 3) return null;
  const dtg = new Float64Array(end - first);
  let variance = 0;
  for (const regime of all) {
    for (let i = 0; i < dtg.length; i++) {
      const k = first + i - regime.firstPoint;
      // A point that no run covers (an isothermal) is a gap, not a zero: NaN from here on.
      dtg[i]! += regime.sum[k]! / regime.count[k]! / all.length;
    }
    variance += regime.variance / regime.runs ** 2 / all.length ** 2;
  }
  return {
    firstPoint: first,
    dtg,
    noise: Math.sqrt(variance),
    regimes: all.length,
    runs: all.reduce((sum, regime) => sum + regime.runs, 0),
  };
}
