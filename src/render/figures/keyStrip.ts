import type { View } from "./page.ts";
import { textPx } from "./textPx.ts";
import { INK, type Theme } from "./theme.ts";
import type { Json } from "./types.ts";

/** What a sign of the figure means. */
export interface KeyItem {
  label: string;
  color?: string;
  /** A line with these dashes, this thick. */
  dash?: readonly number[];
  thick?: number;
  shape?: string;
  /** Whether the symbol is filled. @default true */
  filled?: boolean;
  small?: boolean;
  /** A field of this colour with an outline, instead of line and symbol. */
  box?: string;
}

/** A bar with its caps, as a symbol. */
export const INTERVAL = "M-0.5,-1.3L0.5,-1.3M0,-1.3L0,1.3M-0.5,1.3L0.5,1.3";

/** Space of a sign, px. */
const SIGN = 24;

/** The key of a figure, as many items in a row as the width takes; it begins `left` px left of its place. */
export function keyStrip(items: readonly KeyItem[], theme: Theme, options: { width: number; left?: number }): View {
  const { width, left = 0 } = options;
  const { font, line } = theme;
  const widest = Math.max(0, ...items.map(({ label }) => textPx(label, font))) + SIGN + 14;
  const columns = Math.max(1, Math.min(items.length, Math.floor(width / widest)));
  const step = width / columns;
  const rows = Math.ceil(items.length / columns);
  const height = Math.max(1, rows) * line;
  const values = items.map((item, i) => {
    const x = Math.floor(i / rows) * step;
    return { x, y: ((i % rows) + 0.5) * line, item };
  });
  const at = (dx: number, field: "x" | "x2" = "x"): Json =>
    field === "x"
      ? {
          field: dx === 0 ? "x" : "t",
          type: "quantitative",
          scale: { ...pixels(0, width), range: [-left, width - left] },
          axis: null,
        }
      : { field: "t" };
  const y: Json = { field: "y", type: "quantitative", scale: { ...pixels(0, height), reverse: true }, axis: null };
  const own = (
    wanted: (item: KeyItem) => boolean,
    data: (one: (typeof values)[number]) => Record<string, Json>,
  ): Json => ({
    values: values.filter(({ item }) => wanted(item)).map((one) => ({ y: one.y, ...data(one) })),
  });
  return {
    // What follows the width of its views is not to follow that of the key.
    width: 1,
    height,
    layer: [
      {
        data: own(
          ({ box }) => box !== undefined,
          ({ x, item }) => ({ x: x + 3, t: x + 19, c: item.box! }),
        ),
        mark: { type: "rule", strokeWidth: line * 0.62 },
        encoding: { x: at(0), x2: at(1, "x2"), y, color: { field: "c", type: "nominal", scale: null } },
      },
      {
        data: own(
          ({ dash }) => dash !== undefined,
          ({ x, item }) => ({ x, t: x + 22, c: item.color ?? INK, d: [...item.dash!], w: item.thick ?? 1.2 }),
        ),
        mark: { type: "rule" },
        encoding: {
          x: at(0),
          x2: at(1, "x2"),
          y,
          color: { field: "c", type: "nominal", scale: null },
          strokeDash: { field: "d", type: "nominal", scale: null },
          strokeWidth: { field: "w", type: "quantitative", scale: null },
        },
      },
      {
        data: own(
          ({ shape }) => shape !== undefined,
          ({ x, item }) => ({
            t: x + 11,
            c: item.color ?? INK,
            f: item.filled === false ? "#ffffff" : (item.color ?? INK),
            m: item.shape!,
            s: item.small ? 9 : 34,
          }),
        ),
        mark: { type: "point", strokeWidth: 1.1, opacity: 1 },
        encoding: {
          x: at(1),
          y,
          shape: { field: "m", type: "nominal", scale: null },
          size: { field: "s", type: "quantitative", scale: null },
          fill: { field: "f", type: "nominal", scale: null },
          stroke: { field: "c", type: "nominal", scale: null },
        },
      },
      {
        data: own(
          () => true,
          ({ x, item }) => ({ t: x + SIGN + 3, l: item.label }),
        ),
        mark: { type: "text", align: "left", baseline: "middle" },
        encoding: { x: at(1), y, text: { field: "l", type: "nominal" } },
      },
    ],
  };
}

function pixels(from: number, to: number): { domain: number[]; nice: boolean; zero: boolean } {
  return { domain: [from, to], nice: false, zero: false };
}
