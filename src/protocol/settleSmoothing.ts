import { chooseWidth } from "../curve/chooseWidth.ts";
import type { WidthScore } from "../curve/scoreWidths.ts";
import type { Settled } from "../losses/types.ts";
import type { Protocol } from "./types.ts";

/** The widths, °C, that are tried for a protocol whose smoothing is chosen from the runs. */
export function smoothingWidths({ smoothing, grid }: Protocol): number[] {
  const { choose, degree } = smoothing;
  if (!choose) return [];
  const widths: number[] = [];
  for (let width = choose.least_C; width <= choose.most_C + 1e-9; width += 2 * grid.step_C) {
    if (2 * Math.round(width / grid.step_C / 2) + 1 > degree + 1) widths.push(Number(width.toFixed(6)));
  }
  return widths;
}

/**
 * Puts the width that the runs choose into the protocol.
 *
 * @param scores Of every run for the widths of `smoothingWidths`.
 * @returns The protocol without `choose`, and the record for `settled`.
 */
export function settleSmoothing(
  protocol: Protocol,
  scores: readonly (readonly WidthScore[])[],
): { protocol: Protocol; record: NonNullable<Settled["smoothing"]> } {
  const record = chooseWidth(scores);
  const { choose: _, ...smoothing } = protocol.smoothing;
  return { protocol: { ...protocol, smoothing: { ...smoothing, width_C: record.width_C } }, record };
}
