import { type Content, type Html, html } from "./html.ts";

/** The first of many items as a list, and where the others stand. */
export function capped(items: readonly Content[], options: { most: number; rest: string }): Html {
  const { most, rest } = options;
  const left = items.length - most;
  return html`<ul>
${items.slice(0, most).map((item) => html`<li>${item}</li>\n`)}</ul>
${left > 0 && html`<p class="aside">${left} more: they stand in ${rest}.</p>\n`}`;
}
