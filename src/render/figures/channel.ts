import { ticks } from "d3-array";
import { textPx } from "./textPx.ts";
import type { Theme } from "./theme.ts";
import type { Json } from "./types.ts";

/** An axis that is drawn. */
export interface Axis {
  title: string;
  /** Where it is marked. */
  values: readonly number[];
  orient?: "left" | "right" | "bottom" | "top";
  /** Space that the numbers take, px. */
  extent?: number;
  /** Ticks without numbers. */
  unnamed?: boolean;
}

/** A position channel of a field of numbers; without an axis none is drawn. */
export function channel(
  field: string,
  options: { domain: readonly [number, number]; log?: boolean; reverse?: boolean; axis?: Axis },
): Json {
  const { domain, log = false, reverse = false, axis } = options;
  const scale = { type: log ? "log" : "linear", domain, zero: false, nice: false, ...(reverse ? { reverse } : {}) };
  return { field, type: "quantitative", scale: log ? omit(scale, "zero") : scale, axis: axis ? drawn(axis) : null };
}

function omit(object: Record<string, Json>, key: string): Json {
  return Object.fromEntries(Object.entries(object).filter(([name]) => name !== key));
}

function drawn({ title, values, orient, extent, unnamed = false }: Axis): Json {
  return {
    title: title === "" ? null : title,
    values: [...values],
    format: "~r",
    labels: !unnamed,
    ...(orient === undefined ? {} : { orient }),
    ...(extent === undefined ? {} : { minExtent: extent, maxExtent: extent, titlePadding: 2 }),
  };
}

/** Marks of a linear axis of this length in px: as many round numbers as stand apart, at most about ten. */
export function marksOf(
  [lo, hi]: readonly [number, number],
  length: number,
  { font }: Theme,
  side: "x" | "y",
): number[] {
  const perPx = (hi - lo) / length;
  for (let count = Math.min(10, Math.floor(length / (font * 1.6))); count > 1; count--) {
    const marks = ticks(lo, hi, count);
    const widest = Math.max(...marks.map((mark) => textPx(numberText(mark), font)));
    const apart = side === "y" ? font * 2.2 : widest + font * 0.6;
    if (marks.length > 1 && (marks[1]! - marks[0]!) / perPx >= apart) return marks;
  }
  // Little room: the outermost round numbers, and zero between them.
  const all = ticks(lo, hi, 6);
  const ends = all.length < 2 ? all : [all[0]!, all.at(-1)!];
  return lo < 0 && hi > 0 ? [...new Set([...ends, 0])].sort((a, b) => a - b) : ends;
}

/** Of marks in px along an axis those whose numbers do not meet; the last is kept first. */
export function thinMarks(values: readonly number[], place: (value: number) => number, { font }: Theme): number[] {
  const kept: number[] = [];
  let edge = Number.POSITIVE_INFINITY;
  for (const value of [...values].sort((a, b) => b - a)) {
    const half = textPx(numberText(value), font) / 2 + 2;
    if (place(value) + half > edge) continue;
    kept.push(value);
    edge = place(value) - half;
  }
  return kept.reverse();
}

/** A number as the axes write it. */
function numberText(value: number): string {
  return String(Number(value.toPrecision(6)));
}
