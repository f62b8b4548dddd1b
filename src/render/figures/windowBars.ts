import type { Window } from "../../losses/types.ts";
import { figureLabel } from "./figureLabel.ts";
import { textPx } from "./textPx.ts";
import type { Theme } from "./theme.ts";

/** A window as a bar above a curve. */
export interface WindowBar {
  label: string;
  /** Ends inside the axis, °C. */
  from: number;
  to: number;
  /** Where its label stands, °C: it stays inside the axis. */
  middle: number;
  /** 0 is next to the curve. */
  row: number;
}

/** Windows → bars in as few rows as keep bars and labels apart, in the order of the windows; those outside the axis are left out. */
export function windowBars(
  windows: readonly Pick<Window, "name" | "from_C" | "to_C">[],
  { domain, length, theme }: { domain: readonly [number, number]; length: number; theme: Theme },
): WindowBar[] {
  const perPx = (domain[1] - domain[0]) / length;
  const taken: [number, number][][] = [];
  return windows.flatMap(({ name, from_C, to_C }): WindowBar[] => {
    const from = Math.max(from_C, domain[0]);
    const to = Math.min(to_C, domain[1]);
    if (!(from < to)) return [];
    const label = figureLabel(name, 24);
    const half = ((textPx(label, theme.font) + 8) / 2) * perPx;
    const middle = Math.max(domain[0] + half, Math.min((from + to) / 2, domain[1] - half));
    const own: [number, number] = [Math.min(from, middle - half), Math.max(to, middle + half)];
    // Windows that touch stand in one row.
    const free = taken.findIndex((row) => row.every(([a, b]) => own[1] <= a || own[0] >= b));
    const row = free < 0 ? taken.length : free;
    taken[row] = [...(taken[row] ?? []), own];
    return [{ label, from, to, middle, row }];
  });
}
