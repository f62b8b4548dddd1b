import { escapeText } from "../render/report/escapeText.ts";
import type { Grid, Lines, View } from "./types.ts";

/** A text of more characters is set in several lines. */
const LONG = 60;

/**
 * A view as HTML for the output of a notebook: tables with caption and headings that say what they head, sentences as
 * paragraphs. Labels come from strangers and are escaped. No colours: a notebook may be dark.
 */
export function viewHtml(view: View): string {
  return `<div>\n${view.map((part) => ("columns" in part ? gridHtml(part) : linesHtml(part))).join("\n")}\n</div>`;
}

function gridHtml({ caption, columns, rows, heads = 0 }: Grid): string {
  const style = (i: number, text: string) => {
    const wrap = text.length > LONG ? "normal;min-width:24em" : "nowrap";
    return ` style="text-align:${columns[i]!.align ?? "left"};vertical-align:top;white-space:${wrap}"`;
  };
  const heading = columns
    .map(({ heading }, i) => `<th scope="col"${style(i, heading)}>${escapeText(heading)}</th>`)
    .join("");
  const cell = (text: string, i: number) =>
    i < heads
      ? `<th scope="row"${style(i, text)}>${escapeText(text)}</th>`
      : `<td${style(i, text)}>${escapeText(text)}</td>`;
  return [
    '<div style="overflow-x:auto"><table style="margin:0;font-variant-numeric:tabular-nums">',
    `<caption style="caption-side:top;text-align:left;font-weight:bold">${escapeText(caption)}</caption>`,
    `<thead><tr>${heading}</tr></thead>`,
    `<tbody>${rows.map((row) => `<tr>${row.map(cell).join("")}</tr>`).join("\n")}</tbody>`,
    "</table></div>",
  ].join("\n");
}

/** Blanks at the start of a line say what it belongs to. */
function linesHtml({ heading, lines, aligned = false }: Lines): string {
  const title =
    heading === undefined ? "" : `<p style="margin:0.6em 0 0"><strong>${escapeText(heading)}</strong></p>\n`;
  const text = lines.map(escapeText).join("\n");
  const margin = "margin:0.2em 0 0.6em";
  if (aligned) return `${title}<pre style="${margin};overflow-x:auto">${text}</pre>`;
  return `${title}<p style="${margin};white-space:pre-wrap">${text}</p>`;
}
