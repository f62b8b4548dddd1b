import { nice } from "d3-array";
import { type Sketch, sketch as sketchOf } from "../../curve/sketch.ts";
import type { Curve } from "../../curve/types.ts";
import type { Window } from "../../losses/types.ts";
import { channel, marksOf } from "./channel.ts";
import { curveAlt } from "./curveAlt.ts";
import { domainOf } from "./domainOf.ts";
import { figureLabel } from "./figureLabel.ts";
import { figureName } from "./figureName.ts";
import { page, type View } from "./page.ts";
import { type FigureOptions, INK, SHADE, type Theme, theme } from "./theme.ts";
import type { Figure, Json } from "./types.ts";
import { type WindowBar, windowBars } from "./windowBars.ts";

/** Options of {@link curveFigure}. */
export interface CurveFigureOptions extends FigureOptions {
  /** Windows to mark: a bar with the name of each above the curves; those that overlap no earlier one are shaded. @default none */
  windows?: readonly Pick<Window, "name" | "from_C" | "to_C">[];
}

/** Points of a curve: more than one per px shows nothing more. */
const POINTS = 700;

/**
 * TG and DTG of one curve, one below the other on one temperature axis, with windows if given. For a run that is measured already
 * the figure of the run says more; this one needs nothing but the curve.
 *
 * @param curve From `toCurve`, or a sketch of it; a sketch may carry the name of its file.
 * @throws RangeError for a sketch without points.
 *
 * @example
 * ```ts
 * import { curveFigure } from "tg-hydrates";
 * const sketch = { temperature_C: [30, 100, 200], mass_pct: [100, 95, 90], dtg_pct_per_C: [0, 0.1, 0] };
 * const { alt } = curveFigure(sketch, { windows: [{ name: "low", from_C: 30, to_C: 100 }] });
 * if (!alt.endsWith("low (30–100 °C) 5.0.")) throw new Error("the text says what the window lost");
 * ```
 */
export function curveFigure(curve: Curve | (Sketch & { file?: string }), options: CurveFigureOptions = {}): Figure {
  const { windows = [], width } = options;
  const { file, sketch } =
    "pieces" in curve ? { file: curve.run.source.name, sketch: sketchOf(curve, { points: POINTS }) } : ofSketch(curve);
  const { temperature_C, mass_pct, dtg_pct_per_C } = sketch;
  if (temperature_C.length === 0) throw new RangeError("A sketch without points has no figure");
  const size = theme(width);
  const left = size.font * 4.5 + 8;
  const length = size.width - left - 14;
  const domain: [number, number] = [
    Math.floor(temperature_C[0]! / 50) * 50,
    Math.ceil(Math.max(...temperature_C, temperature_C[0]! + 1) / 50) * 50,
  ];
  const bars = windowBars(windows, { domain, length, theme: size });
  const values = temperature_C.map((x, i) => ({ x, m: mass_pct[i]!, d: dtg_pct_per_C[i]! }));
  const height = Math.round(length * 0.3);
  const marks = marksOf(domain, length, size, "x");
  const plot = (field: "m" | "d", title: string, last: boolean): View => {
    const y = rangeOf(values.map((point) => point[field]));
    const axis = { title: last ? "temperature / °C" : "", values: marks, unnamed: !last };
    // Every layer has the same axes: one without would take them from the others.
    const xs = channel("x", { domain, axis });
    const named = { title, values: marksOf(y, height, size, "y"), extent: size.font * 3 };
    const ys = (of: string): Json => channel(of, { domain: y, axis: named });
    return {
      width: length,
      height,
      layer: [
        {
          data: { values: apart(bars).map(({ from, to }) => ({ x: from, to })) },
          mark: { type: "rect", color: SHADE, opacity: 1, x2Offset: -1 },
          encoding: { x: xs, x2: { field: "to" } },
        },
        ...(y[0] < 0 && y[1] > 0
          ? [
              {
                data: { values: [{ zero: 0 }] },
                mark: { type: "rule", strokeWidth: 0.5, color: INK },
                encoding: { y: ys("zero") },
              },
            ]
          : []),
        {
          data: { values: values.map((point) => ({ x: point.x, [field]: point[field] })) },
          mark: { type: "line", strokeWidth: 1.3, color: INK },
          encoding: { x: xs, y: ys(field) },
        },
      ],
    };
  };
  const title = `TG and DTG${file === undefined ? "" : ` of ${figureLabel(file, 60)}`}`;
  const alt = curveAlt(sketch, { title, windows });
  const views = [plot("m", "mass / % of initial", false), plot("d", "DTG / (%/°C)", true)];
  const top = bars.length === 0 ? 8 : 12;
  return {
    name: figureName("curve", file ?? null),
    kind: "run",
    title,
    alt,
    spec: page(bars.length === 0 ? views : [barStrip(bars, { domain, length, theme: size }), ...views], {
      ...{ theme: size, title, alt, left, top, row: 10 },
      bottom: size.font * 3 + 10,
    }),
  };
}

function ofSketch(curve: Sketch & { file?: string }): { file: string | undefined; sketch: Sketch } {
  return { file: curve.file, sketch: curve };
}

/** Windows that overlap no earlier one: shades on one another would look like a third kind. */
function apart(bars: readonly WindowBar[]): WindowBar[] {
  const kept: WindowBar[] = [];
  for (const bar of bars) if (kept.every(({ from, to }) => bar.to <= from || bar.from >= to)) kept.push(bar);
  return kept;
}

function rangeOf(values: readonly number[]): [number, number] {
  const [lo, hi] = [Math.min(...values), Math.max(...values)];
  return lo < hi ? nice(lo, hi, 8) : domainOf(values);
}

function barStrip(
  bars: readonly WindowBar[],
  { domain, length, theme }: { domain: [number, number]; length: number; theme: Theme },
): View {
  const rows = Math.max(...bars.map(({ row }) => row)) + 1;
  const step = theme.line + 6;
  const height = rows * step;
  const ys = channel("y", { domain: [0, height] });
  const x = (field: string): Json => channel(field, { domain });
  const values = bars.map(({ label, from, to, middle, row }) => ({ label, from, to, middle, y: row * step + 3 }));
  const ends = values.flatMap(({ from, to, y }) => [from, to].map((end) => ({ end, y })));
  return {
    width: length,
    height,
    layer: [
      {
        data: { values },
        mark: { type: "rule", strokeWidth: 1, color: INK },
        encoding: { x: x("from"), x2: { field: "to" }, y: ys },
      },
      {
        data: { values: ends },
        mark: { type: "tick", orient: "vertical", size: 6, thickness: 1, color: INK },
        encoding: { x: x("end"), y: ys },
      },
      {
        data: { values },
        mark: { type: "text", align: "center", baseline: "bottom", dy: -2 },
        encoding: { x: x("middle"), y: ys, text: { field: "label", type: "nominal" } },
      },
    ],
  };
}
