import { INK, type Theme } from "./theme.ts";
import type { FigureSpec, Json } from "./types.ts";

/** Part of a figure with its size, px. */
export interface View {
  readonly width: number;
  readonly height: number;
  readonly [key: string]: Json;
}

/** How views become a page. */
export interface PageOptions {
  theme: Theme;
  title: string;
  alt: string;
  /** Views per row. @default 1 */
  columns?: number;
  /** Space between rows and columns, px. @default 0 */
  row?: number;
  column?: number;
  /** Space around the first view and the last, px: axes and labels stand there. */
  left: number;
  top: number;
  bottom: number;
}

/** Face by face until one is there: all have the letters of most European languages. */
const FONT = "Arial, Helvetica, 'Liberation Sans', 'DejaVu Sans', sans-serif";

/**
 * Views → specification. Every place is fixed here and none is left to the measuring of text, so that a figure is the same
 * wherever it is drawn. `usermeta.frame` is the picture's edge, x, y, width, height from the corner of the first view.
 */
export function page(views: readonly View[], options: PageOptions): FigureSpec {
  const { theme, title, alt, columns = 1, row = 0, column = 0, left, top, bottom } = options;
  const rows: View[][] = [];
  for (const [i, view] of views.entries()) {
    if (i % columns === 0) rows.push([]);
    rows.at(-1)!.push(view);
  }
  const heights = rows.map((own) => Math.max(...own.map(({ height }) => height)));
  const height = heights.reduce((sum, one) => sum + one, 0) + row * (rows.length - 1);
  return {
    $schema: "https://vega.github.io/schema/vega-lite/v5.json",
    description: alt,
    usermeta: { title, frame: [-left, -top, theme.width, Math.round((top + height + bottom) * 10) / 10] },
    background: "#ffffff",
    padding: 4,
    config: config(theme),
    concat: views,
    columns,
    spacing: { row, column },
    align: "none",
    bounds: "flush",
  };
}

function config({ font }: Theme): Json {
  return {
    aria: false,
    font: FONT,
    view: { stroke: null },
    text: { fontSize: font, color: INK },
    axis: {
      grid: false,
      domainColor: INK,
      tickColor: INK,
      labelColor: INK,
      titleColor: INK,
      labelFontSize: font,
      titleFontSize: font,
      titleFontWeight: "normal",
      tickSize: 4,
      labelPadding: 2,
      labelOverlap: false,
      labelFlush: false,
      labelBound: false,
    },
  };
}
