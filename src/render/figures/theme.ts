/** Widths of a journal: one column (85 mm) or the whole page (170 mm). */
export type FigureWidth = "column" | "full";

/** Options that every figure takes. */
export interface FigureOptions {
  /** `column`: 85 mm, `full`: 170 mm. @default "full" */
  width?: FigureWidth;
}

/** Measures of a page in px of 1/96 inch, the unit of CSS and SVG. */
export interface Theme {
  /** Of the whole figure: 85 and 170 mm, rounded down. */
  width: number;
  /** Height of letters: 7 pt and 8 pt. */
  font: number;
  /** Of a line of text. */
  line: number;
  /** Longest label of a regime in columns. */
  label: number;
}

/** Letters, lines and axes; dark enough for small text (WCAG 2, 7 : 1). */
export const INK = "#1f2326";
/** Lines that may step back, 3 : 1 on white. */
export const SOFT = "#7c838a";
/** Shading behind curves. */
export const SHADE = "#e3e6ea";

/** Measures for a width. */
export function theme(width: FigureWidth = "full"): Theme {
  return width === "column"
    ? { width: 321, font: 9.4, line: 12, label: 14 }
    : { width: 642, font: 10.7, line: 14, label: 24 };
}
