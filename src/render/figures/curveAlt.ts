import type { Sketch } from "../../curve/sketch.ts";
import type { Window } from "../../losses/types.ts";
import { fixed } from "../decisionWords.ts";
import { figureLabel } from "./figureLabel.ts";
import { valueAt } from "./valueAt.ts";

/** Of the highest DTG; what is lower nobody sees as a peak. */
const LEAST_HEIGHT = 0.05;
/** Between two peaks the DTG falls below this share of the lower one. */
const DEEPEST = 0.8;
const MOST_PEAKS = 5;

/** What is to be seen of TG and DTG, in words: masses at both ends, highest peaks, what is lost in each window. */
export function curveAlt(
  sketch: Sketch,
  { title, windows }: { title: string; windows: readonly Pick<Window, "name" | "from_C" | "to_C">[] },
): string {
  const { temperature_C: T, mass_pct: m } = sketch;
  const end = T.length - 1;
  const ends = `${title}: mass ${m[0]!.toFixed(1)} % at ${T[0]!.toFixed(0)} °C, ${m[end]!.toFixed(1)} % at ${T[end]!.toFixed(0)} °C.`;
  const peaks = peaksOf(sketch).map((k) => `${T[k]!.toFixed(0)} °C (${sketch.dtg_pct_per_C[k]!.toPrecision(2)} %/°C)`);
  const highest = peaks.length === 0 ? " No DTG peak." : ` Highest DTG peaks: ${peaks.join(", ")}.`;
  const lost = windows.map(({ name, from_C, to_C }) => {
    const before = valueAt(T, m, from_C);
    const after = valueAt(T, m, to_C);
    const range = `${figureLabel(name)} (${from_C}–${to_C} °C)`;
    return before === null || after === null ? `${range} not covered` : `${range} ${fixed(before - after, 1)}`;
  });
  const inWindows = lost.length === 0 ? "" : ` Lost between the edges, % of the initial mass: ${lost.join(", ")}.`;
  return `${ends}${highest}${inWindows}`;
}

/** Of two maxima without a valley between them the higher one is the peak. */
function peaksOf({ dtg_pct_per_C: dtg }: Sketch): number[] {
  const maxima = dtg.flatMap((value, k) =>
    value > 0 && value >= (dtg[k - 1] ?? 0) && value > (dtg[k + 1] ?? 0) ? [k] : [],
  );
  const sorted = maxima.sort((a, b) => dtg[b]! - dtg[a]!);
  const kept: number[] = [];
  for (const k of sorted) {
    if (dtg[k]! < LEAST_HEIGHT * dtg[sorted[0]!]! || kept.length === MOST_PEAKS) break;
    const apart = kept.every(
      (other) => Math.min(...dtg.slice(Math.min(k, other), Math.max(k, other) + 1)) < DEEPEST * dtg[k]!,
    );
    if (apart) kept.push(k);
  }
  return kept.sort((a, b) => a - b);
}
