import { type Content, type Html, html } from "./html.ts";

/** A column of a table. */
export interface Column {
  heading: Content;
  align?: "right";
}

/** Rows under a heading of their own. */
export interface Body {
  heading?: Content;
  rows: readonly (readonly Content[])[];
}

/**
 * A table in a region that scrolls by itself where the page is narrow.
 *
 * @param id Unique in the page.
 * @param options `headers`: how many cells a row begins with name it. @default 1. `groups`: headings above several columns.
 */
export function table(
  id: string,
  options: {
    caption: Content;
    columns: readonly Column[];
    bodies: readonly Body[];
    headers?: number;
    groups?: readonly { heading: Content; span: number }[];
  },
): Html {
  const { caption, columns, bodies, headers = 1, groups } = options;
  const side = (i: number): Content => (columns[i]?.align === "right" ? html` class="number"` : "");
  const row = (cells: readonly Content[]): Html =>
    html`<tr>${cells.map((cell, i) =>
      i < headers ? html`<th scope="row"${side(i)}>${cell}</th>` : html`<td${side(i)}>${cell}</td>`,
    )}</tr>\n`;
  const body = ({ heading, rows }: Body): Html =>
    html`<tbody>${
      heading !== undefined &&
      html`<tr class="group"><th scope="rowgroup" colspan="${columns.length}"><span>${heading}</span></th></tr>\n`
    }${rows.map(row)}</tbody>\n`;
  const above =
    groups &&
    html`<tr>${groups.map(({ heading, span }) =>
      heading === "" ? html`<td colspan="${span}"></td>` : html`<th scope="colgroup" colspan="${span}">${heading}</th>`,
    )}</tr>\n`;
  return html`<div class="scroll" role="region" aria-labelledby="${id}" tabindex="0">
<table>
<caption id="${id}"><span>${caption}</span></caption>
<thead>${above}<tr>${columns.map(({ heading }, i) => html`<th scope="col"${side(i)}>${heading}</th>`)}</tr></thead>
${bodies.map(body)}</table>
</div>
`;
}
