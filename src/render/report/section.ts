import { type Content, type Html, html } from "./html.ts";

/** One part of the report; `wide` is printed on its side. */
export interface Section {
  id: string;
  heading: string;
  content: Content;
  wide?: boolean;
}

/** A part of the report with its heading. */
export function section({ id, heading, content, wide = false }: Section): Html {
  return html`<section id="${id}" aria-labelledby="${id}-heading"${wide && html` class="wide"`}>
<h2 id="${id}-heading">${heading}</h2>
<div class="body">
${content}</div>
</section>
`;
}
