import { type Content, type Html, html } from "./html.ts";

/** A name that a stranger gave: its direction of writing does not touch what stands beside it. */
export function label(text: Content): Html {
  return html`<bdi>${text}</bdi>`;
}
