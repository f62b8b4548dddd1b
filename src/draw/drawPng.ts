import { DrawError } from "./drawError.ts";
import { importPackage } from "./importPackage.ts";

/** Options of {@link drawPng}; one of the two. */
export interface DrawPngOptions {
  /** Pixels per px of the SVG. @default 2 */
  scale?: number;
  /** Pixels per inch in print; an SVG of ours has its true size at 96. */
  dpi?: number;
}

/**
 * SVG → PNG, with the fonts of the system.
 *
 * @throws DrawError where `@resvg/resvg-js` is not installed or the SVG cannot be read; RangeError for a scale that makes no picture.
 *
 * @example
 * ```ts
 * import { drawPng } from "tg-hydrates/node";
 * const png = await drawPng('<svg xmlns="http://www.w3.org/2000/svg" width="85" height="40"/>', { scale: 3 });
 * if (png[1] !== 0x50) throw new Error("a PNG begins with its name");
 * ```
 */
export async function drawPng(svg: string, options: DrawPngOptions = {}): Promise<Uint8Array> {
  const { dpi, scale = dpi === undefined ? 2 : dpi / 96 } = options;
  if (!(scale > 0 && scale <= 20)) {
    throw new RangeError(
      `Give a scale above 0 and up to 20 (1920 dpi), not ${dpi === undefined ? scale : `${dpi} dpi`}`,
    );
  }
  const { Resvg } = await importPackage("@resvg/resvg-js", () => import("@resvg/resvg-js"));
  try {
    const picture = new Resvg(svg, {
      fitTo: { mode: "zoom", value: scale },
      font: { loadSystemFonts: true, sansSerifFamily: "DejaVu Sans" },
    });
    return new Uint8Array(picture.render().asPng());
  } catch (error) {
    throw new DrawError(error instanceof Error ? error.message : String(error), { cause: error });
  }
}
