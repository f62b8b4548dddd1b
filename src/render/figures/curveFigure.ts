import { type Sketch, sketch as sketchOf } from "../../curve/sketch.ts";
import type { Curve } from "../../curve/types.ts";
import type { Window } from "../../losses/types.ts";
import type { Figure, Json } from "./types.ts";

/** Temporary. */
export function curveFigure(
  curve: Curve | (Sketch & { file?: string }),
  options: { windows?: readonly Pick<Window, "name" | "from_C" | "to_C">[] } = {},
): Figure {
  const { windows = [] } = options;
  const sketch = "pieces" in curve ? sketchOf(curve) : curve;
  const name = "pieces" in curve ? curve.run.source.name : (curve.file ?? "curve");
  const values = sketch.temperature_C.map((T, i) => ({ T, m: sketch.mass_pct[i]!, d: sketch.dtg_pct_per_C[i]! }));
  const panel = (field: string, title: string): Json => ({
    width: 560,
    height: 200,
    layer: [
      {
        data: { values: windows.map((w) => ({ ...w })) },
        mark: { type: "rect", opacity: 0.15, clip: true },
        encoding: { x: { field: "from_C", type: "quantitative" }, x2: { field: "to_C" } },
      },
      {
        mark: { type: "line", clip: true },
        encoding: {
          x: { field: "T", type: "quantitative", title: "T/°C" },
          y: { field, type: "quantitative", title, scale: { zero: false } },
        },
      },
    ],
  });
  return {
    name,
    kind: "run",
    title: `TG and DTG of ${name}`,
    alt: `TG curve of ${name} from ${sketch.temperature_C[0]} to ${sketch.temperature_C.at(-1)} °C.`,
    spec: {
      $schema: "https://vega.github.io/schema/vega-lite/v5.json",
      data: { values },
      vconcat: [panel("m", "mass, %"), panel("d", "DTG, %/°C")],
    },
  };
}
