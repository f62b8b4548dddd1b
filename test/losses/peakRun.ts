import { toCurve } from "../../src/curve/toCurve.ts";
import type { Curve } from "../../src/curve/types.ts";
import type { FittedPeak, PeakFit } from "../../src/losses/fitTypes.ts";
import { normalCdf } from "../../src/numerics/normalCdf.ts";
import { seededRandom } from "../../src/numerics/seededRandom.ts";
import { makeRun, ramp } from "../makeRun.ts";

/** A peak whose share of the loss is known in closed form. */
export interface TruePeak {
  /** mg */
  area: number;
  position: number;
  width: number;
  asymmetry: number;
}

/** What is measured, and how. */
export interface PeakRunOptions {
  /** Loss besides the peaks, mg/°C. @default 0.0006 */
  background?: number;
  /** Standard deviation of one reading, mg, and its correlation with the one before. @default 0 */
  noise?: number;
  correlation?: number;
  seed?: string;
  /** Readings from 25 to 400 °C. @default 2500 */
  rows?: number;
  /** The masses are printed in multiples of this, mg. @default 0 */
  resolution?: number;
  /** The thermometer shows so much too much, °C. @default 0 */
  offset?: number;
  step_C?: number;
  smoothing_C?: number;
}

const K = Math.sqrt(2 * Math.LN2);

/**
 * Share of a Fraser–Suzuki peak that lies below T, exactly: with u = ln(1 + 2s(T − T₀)/w)/s the peak is
 * exp(−ln 2·u² + s·u) du, a normal distribution of u about s/(2 ln 2) with the standard deviation 1/√(2 ln 2).
 */
export function shareBelow(T: number, { position, width, asymmetry: s }: TruePeak): number {
  if (s === 0) return normalCdf((K * 2 * (T - position)) / width);
  const z = (2 * (T - position) * Math.sinh(s)) / width;
  if (z <= -1) return s > 0 ? 0 : 1;
  return normalCdf(K * (Math.log1p(z) / s - s / (2 * Math.LN2)));
}

/** The curve of a run of 40 mg that loses mass in these peaks. */
export function peakCurve(peaks: readonly TruePeak[], options: PeakRunOptions = {}): Curve {
  const {
    background = 0.0006,
    noise = 0,
    correlation = 0,
    seed = "1",
    rows = 2500,
    resolution = 0,
    offset = 0,
  } = options;
  const { step_C = 0.5, smoothing_C = 10 } = options;
  const { temperature, time } = ramp(25, 400, { rows, rate: 10 });
  const random = seededRandom(seed);
  let error = random.normal();
  const mass = temperature.map((T) => {
    const lost = peaks.reduce((sum, peak) => sum + peak.area * shareBelow(T, peak), background * (T - 25));
    const value = 40 - lost + noise * error;
    error = correlation * error + Math.sqrt(1 - correlation ** 2) * random.normal();
    return resolution === 0 ? value : Math.round(value / resolution) * resolution;
  });
  const run = makeRun(
    temperature.map((T) => T + offset),
    mass,
    { time, resolution },
  );
  return toCurve(run, { grid: { step_C }, smoothing: { width_C: smoothing_C, degree: 3 } });
}

/** Two peaks of known shape; the second so far above the first. */
export const truth = (separation: number): [TruePeak, TruePeak] => [
  { area: 2.4, position: 120, width: 34, asymmetry: -0.31 },
  { area: 0.8, position: 120 + separation, width: 40, asymmetry: -0.31 },
];
/** No uncertainty of the shapes: what remains is noise and misfit. */
export const knownShapes = { width_u_pct: 0, asymmetry_u: 0 };

export function fitted(fit: PeakFit): FittedPeak[] {
  if (fit.verdict === "refused") throw new Error(`refused: ${fit.message}`);
  return fit.peaks;
}
