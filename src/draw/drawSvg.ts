import type { TopLevelSpec } from "vega-lite";
import type { FigureSpec } from "../render/figures/types.ts";
import { DrawError } from "./drawError.ts";
import { finishSvg } from "./finishSvg.ts";
import { importPackage } from "./importPackage.ts";

/** Words for {@link drawSvg} that the specification does not bring. */
export interface DrawSvgOptions {
  /** Short title of the picture. @default that of the specification */
  title?: string;
  /** Text in place of the picture. @default the specification's `description` */
  alt?: string;
}

/**
 * Specification → SVG. The same bytes for the same specification; title and description inside, no script, nothing fetched:
 * a specification that names an address or a file is refused.
 *
 * @throws DrawError where `vega` or `vega-lite` is not installed, or the specification cannot be drawn.
 *
 * @example
 * ```ts
 * import { drawSvg } from "tg-hydrates/node";
 * const svg = await drawSvg({
 *   $schema: "https://vega.github.io/schema/vega-lite/v5.json",
 *   description: "Three points.",
 *   data: { values: [{ x: 1 }, { x: 2 }, { x: 4 }] },
 *   mark: "point",
 *   encoding: { x: { field: "x", type: "quantitative" } },
 * });
 * if (!svg.includes("<desc>Three points.</desc>")) throw new Error("the text stands in the picture");
 * ```
 */
export async function drawSvg(spec: FigureSpec, options: DrawSvgOptions = {}): Promise<string> {
  const vegaLite = await importPackage("vega-lite", () => import("vega-lite"));
  const vega = await importPackage("vega", () => import("vega"));
  const problems: string[] = [];
  let raw: string;
  try {
    // vega marks the rows that it draws, and these are the caller's: it gets a copy below.
    const quiet = {
      level: () => quiet,
      error: (...words: unknown[]) => {
        problems.push(words.map(String).join(" "));
        return quiet;
      },
      warn: () => quiet,
      info: () => quiet,
      debug: () => quiet,
    };
    const copy = structuredClone(spec) as unknown as TopLevelSpec;
    const compiled = vegaLite.compile(copy, { logger: quiet }).spec;
    // Vega only warns about what it cannot load, and draws without.
    const refuse = (uri: string): Promise<never> => {
      const words = `Put the data into the figure: it names ${uri}, and nothing is fetched`;
      if (!problems.includes(words)) problems.push(words);
      return Promise.reject(new Error(words));
    };
    const loader = { load: refuse, sanitize: refuse, http: refuse, file: refuse, options: {} };
    const view = new vega.View(vega.parse(compiled), { renderer: "none", loader, logger: quiet });
    raw = await view.toSVG();
    view.finalize();
  } catch (error) {
    throw new DrawError(error instanceof Error ? error.message : String(error), { cause: error });
  }
  if (problems.length > 0) throw new DrawError(problems.join("; "));
  return finishSvg(raw, spec, options);
}
