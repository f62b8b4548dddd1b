import type { FigureSpec } from "../render/figures/types.ts";

/** Temporary. */
export async function drawSvg(spec: FigureSpec): Promise<string> {
  const { compile } = await import("vega-lite");
  const { parse, View } = await import("vega");
  const view = new View(parse(compile(spec as never).spec), { renderer: "none" });
  return view.toSVG();
}
