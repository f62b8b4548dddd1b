import type { Flag } from "../flags.ts";
import type { Run } from "../read/types.ts";
import type { Noise } from "./estimateNoise.ts";
import type { Knots } from "./isotonicKnots.ts";

/** How a run becomes a curve; part of a protocol. */
export interface CurveOptions {
  /** Even temperature grid at multiples of the step. */
  grid: { step_C: number };
  /** Savitzky–Golay smoothing (Anal Chem 36:1627, 1964); the width is a temperature, never a number of points. */
  smoothing: {
    width_C: number;
    degree: number;
    /** At settling the width is chosen from the runs, between these two. @default width_C is taken */
    choose?: { least_C: number; most_C: number };
  };
}

/** A stretch of time in which the temperature stands still. */
export interface Isothermal {
  /** `start`: before the heating; `inside`: between two pieces of it; `end`: after it. */
  position: "start" | "inside" | "end";
  /** Mean temperature, °C. */
  temperature: number;
  /** Time at its start and its end, s; counted in readings where the run has no time. */
  from: number;
  to: number;
  /** First reading of it and one past its last, as indices of the run. */
  first: number;
  end: number;
  /** Mass on entering and on leaving, unit of the run's mass. */
  entering: number;
  leaving: number;
}

/** A stretch of heating between isothermals: smoothing never crosses its ends. */
export interface Piece {
  /** First reading and one past the last, as indices of the run. */
  first: number;
  end: number;
  /** Temperature of its first and last reading (isotonic), °C: the range it covers. */
  from: number;
  to: number;
  /** Its first grid point is at firstPoint · step °C. */
  firstPoint: number;
  /** First grid point and one past the last, as indices of the curve. */
  gridFirst: number;
  gridEnd: number;
  /** Isotonic temperatures of the readings; masses of one knot are averaged. */
  knots: Knots;
}

/** A run on an even temperature grid, smoothed, with its DTG. */
export interface Curve {
  run: Run;
  options: CurveOptions;
  pieces: Piece[];
  isothermals: Isothermal[];
  /** Grid, °C: multiples of the step, growing inside each piece. */
  temperature: Float64Array;
  /** Mass on the grid before smoothing (means over one step), unit of the run's mass. */
  raw: Float64Array;
  /** Smoothed TG, unit of the run's mass. */
  mass: Float64Array;
  /** −dm/dT, unit of the run's mass per °C; positive while mass is lost. */
  dtg: Float64Array;
  /** Heating rate over the heating, K/min; null without time. */
  heatingRate: number | null;
  /** Noise of the readings, from the residuals about the smoothed curve. */
  noise: Noise;
  /** Mass of the first reading of the run, unit of its mass. */
  initialMass: number;
  flags: Flag[];
}
