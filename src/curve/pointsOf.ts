import type { CurveOptions } from "./types.ts";

/**
 * Kernel length and degree for a piece of `available` grid points: the width in °C counted in steps, odd; a piece that
 * is shorter than the width is smoothed over what it has.
 */
export function pointsOf(options: CurveOptions, available: number): { points: number; degree: number } {
  const { width_C: width, degree } = options.smoothing;
  const wished = 2 * Math.round(width / options.grid.step_C / 2) + 1;
  const possible = available % 2 === 1 ? available : available - 1;
  const points = Math.min(wished, possible);
  return { points, degree: Math.min(degree, points - 1) };
}
