import type { DrawnFigure } from "../figures/types.ts";
import { type Html, html } from "./html.ts";
import { inlineSvg } from "./inlineSvg.ts";

/** A figure with its caption and its text alternative; without a drawing the text stands in its place, with the reason. */
export function figureMarkup(figure: DrawnFigure, number: number): Html {
  const drawing = "svg" in figure ? inlineSvg(figure.svg, `f${number}-`) : null;
  const reason = "svg" in figure ? "the drawing holds more than shapes and text" : figure.missing;
  return html`<figure id="figure-${number}">
${
  drawing === null
    ? html`<p class="in-place"><b>Not drawn:</b> ${reason}. What it shows: ${figure.alt}</p>\n`
    : html`<div class="paper" role="region" aria-label="Figure ${number}" tabindex="0"><div role="img" aria-label="${figure.alt}">${drawing}</div></div>\n`
}<figcaption><b>Figure ${number}.</b> ${figure.title}</figcaption>
</figure>
`;
}
