import { type Content, html } from "./html.ts";

/** `a, b, c`. */
export function joined(items: readonly Content[], between: Content = ", "): Content {
  return items.map((item, i) => (i === 0 ? item : html`${between}${item}`));
}
