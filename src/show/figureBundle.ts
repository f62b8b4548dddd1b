import { drawSvg } from "../draw/drawSvg.ts";
import type { Figure } from "../render/figures/types.ts";
import { escapeText } from "../render/report/escapeText.ts";
import { terminalSafe } from "../render/terminalSafe.ts";
import { figureText } from "./figureText.ts";
import type { MimeBundle } from "./types.ts";

/**
 * A figure as the output of a notebook: picture, specification, and text in place of the picture. Where it cannot be drawn here
 * (vega is not installed) the text says why, and a notebook that draws specifications itself still draws it.
 *
 * @param options `caption`: a line under the picture. @default none
 */
export async function figureBundle(figure: Figure, options: { caption?: string } = {}): Promise<MimeBundle> {
  const { spec, title, alt } = figure;
  const said = figureText(figure, options);
  let svg: string;
  try {
    svg = await drawSvg(spec, { title: terminalSafe(title), alt: terminalSafe(alt) });
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    // No text/html: notebooks prefer it to the specification, which they can draw.
    return { "text/plain": `${said}Not drawn here: ${terminalSafe(why)}\n`, "application/vnd.vegalite.v5+json": spec };
  }
  const { caption } = options;
  const below = caption === undefined ? "" : `<figcaption>${escapeText(caption)}</figcaption>`;
  return {
    "text/html": `<figure style="margin:0"><div role="img" aria-label="${escapeText(alt)}" style="background:#fff;width:fit-content;max-width:100%;overflow-x:auto">${svg}</div>${below}</figure>`,
    "image/svg+xml": svg,
    "application/vnd.vegalite.v5+json": spec,
    "text/plain": said,
  };
}
