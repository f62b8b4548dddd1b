import type { Functional } from "../curve/functional.ts";
import type { Piece } from "../curve/types.ts";
import type { Term } from "../measured.ts";
import type { PeakShape } from "../numerics/fraserSuzuki.ts";
import type { FitModel } from "../numerics/types.ts";

/** A peak to be fitted. Its shape is fixed, the same for all runs; free are its area and a shift within bounds. */
export interface PeakSpec {
  name: string;
  /** Where its maximum may lie, °C. */
  position_C: [number, number];
  /** Full width at half height, °C. */
  width_C: number;
  /** ln(right half width / left half width) at half height; negative: the longer flank is the colder one. @default 0 */
  asymmetry?: number;
}

/** Peaks to be fitted to the DTG of every run; part of a protocol. */
export interface PeakFitSpec {
  peaks: PeakSpec[];
  /** Range of the fit. */
  from_C: number;
  to_C: number;
  /** What the peaks stand on: a straight line of free height and slope, or nothing. */
  baseline: "linear" | "none";
  /** How well the fixed widths are known: standard uncertainty, % of the width. @default 5 */
  width_u_pct?: number;
  /** How well the fixed asymmetries are known: standard uncertainty. @default 0.05 */
  asymmetry_u?: number;
  limits?: PeakFitLimits;
}

/** When a fit is refused. Common practice, no source. */
export interface PeakFitLimits {
  /** An area known no better than this: standard uncertainty, % of the area. @default 20 */
  area_u_pct?: number;
  /** A DTG that departs from the fit by more than this: root mean square without the noise, % of the highest peak. @default 2 */
  misfit_pct?: number;
  /**
   * Two neighbours that one peak of free shape replaces, leaving less than this of the smaller one unexplained: root mean
   * square, % of that of the smaller one. @default 20
   */
  merged_pct?: number;
  /** … or less than this many times the residual deviation. @default 3 */
  merged_times?: number;
}

/** Why there are no areas. */
export type PeakRefusal =
  /** The run does not cover the range of the fit. */
  | "window-truncated"
  /** An isothermal stands inside the range: the DTG is not one curve. */
  | "isothermal-in-window"
  /** The search did not end at a minimum, or the data do not tell the parameters apart. */
  | "not-identifiable"
  /** An area is not above twice its uncertainty. */
  | "peak-absent"
  /** A peak is not where the protocol says it may be. */
  | "position-outside"
  /** An area is there, but its uncertainty is beyond the limit: neighbours are too close, or the peak is too small. */
  | "area-uncertain"
  /** One peak of free shape describes two neighbours about as well. */
  | "one-peak-suffices"
  /** The DTG is not a sum of these peaks. */
  | "residual-structure";

/** One peak that was fitted. */
export interface FittedPeak {
  name: string;
  /** Mass lost in it, unit of the run's mass. */
  area: number;
  /** Standard uncertainty of the area: all terms together. */
  u: number;
  /** `noise`, `misfit`, and the widths and asymmetries of all peaks; unit of the run's mass. */
  terms: Term[];
  /** The area as weights on the DTG, for its covariance with other numbers of the run. */
  weights: Functional;
  /** Where its maximum is, °C. */
  position: number;
  /** Standard uncertainty of the position by noise, °C. */
  positionU: number;
}

/** How well the DTG is a sum of the peaks. */
export interface PeakFitCheck {
  /** Root mean square of DTG less fit, unit of the run's mass per °C. */
  residualDeviation: number;
  /** The same if noise were its only cause. */
  expectedDeviation: number;
  /** What noise does not explain, root mean square, % of the highest peak. */
  misfitPct: number;
  /**
   * Changes of sign among residuals a smoothing width apart, in standard deviations from what chance gives; far below zero:
   * the residuals have structure. Null with too few of either sign.
   */
  runs: number | null;
  /** For each pair of neighbours: one peak of free shape in their place. */
  merged: MergedCheck[];
  /** Condition of the Jacobian with columns of length one. */
  condition: number;
}

/** What one peak of free shape in place of two neighbours leaves of the DTG. */
export interface MergedCheck {
  names: [string, string];
  /** Root mean square beyond noise, % of that of the smaller of the two peaks. */
  unexplainedPct: number;
  /** Root mean square over that of the fit of both. */
  timesResidual: number;
}

/** Areas with their uncertainty, or the reason why there are none. */
export type PeakFit =
  | { verdict: "fitted"; peaks: FittedPeak[]; check: PeakFitCheck }
  | {
      verdict: "refused";
      reason: PeakRefusal;
      /** In words, with the figures. */
      message: string;
      /** Null where it did not come to a fit. */
      check: PeakFitCheck | null;
    };

/** The grid points of a fit: first and one past the last, inside one piece of a curve. */
export interface PeakRange {
  piece: Piece;
  first: number;
  end: number;
}

/** The least-squares problem of a peak fit. Parameters: areas, positions, then height and slope of the baseline. */
export interface PeakProblem {
  spec: PeakFitSpec;
  range: PeakRange;
  /** Number of the grid point, from 0 at the first of the range. */
  x: Float64Array;
  /** °C */
  temperature: Float64Array;
  /** DTG, unit of the run's mass per °C. */
  y: Float64Array;
  /** DTG of a peak of area one as the curve shows it. */
  shapeOf(shape: Required<PeakShape>): Float64Array;
  /** DTG of one peak of the specification, of area one. */
  unit(peak: number, position: number): Float64Array;
  model: FitModel;
  start: number[];
  typical: number[];
}
