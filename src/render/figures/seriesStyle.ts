import { palette } from "./palette.ts";

/** How a series looks: what tells it from others stands three times, so that colour is not needed. */
export interface SeriesStyle {
  color: string;
  /** A symbol's name or its outline within ±1. */
  shape: string;
  /** Dashes and gaps in px; `[1, 0]` is a full line. */
  dash: number[];
}

const shapes = [
  "circle",
  "square",
  "triangle-up",
  "diamond",
  "triangle-down",
  "cross",
  // A star of four points.
  "M0,-1L0.25,-0.25L1,0L0.25,0.25L0,1L-0.25,0.25L-1,0L-0.25,-0.25Z",
];

const dashes = [
  [1, 0],
  [6, 2],
  [2, 2],
  [8, 2, 2, 2],
  [4, 4],
];

/** The look of the series of this number. Colours, shapes and dashes recur after 6, 7 and 5: no two of the first 210 look alike. */
export function seriesStyle(index: number): SeriesStyle {
  return {
    color: palette[index % palette.length]!,
    shape: shapes[index % shapes.length]!,
    dash: dashes[index % dashes.length]!,
  };
}
