import { escapeText } from "./escapeText.ts";

/** Markup. Made by {@link html} only, so that text of a stranger never becomes markup by mistake. */
export class Html {
  readonly markup: string;

  constructor(markup: string) {
    this.markup = markup;
  }
}

/** What may stand in a template: text is escaped, markup goes in as it is, lists are joined, nothing is nothing. */
export type Content = Html | string | number | null | undefined | false | readonly Content[];

/** Markup with its gaps filled: html`<p>${text}</p>`. */
export function html(parts: TemplateStringsArray, ...contents: Content[]): Html {
  return new Html(parts.map((part, i) => (i === 0 ? part : markupOf(contents[i - 1]) + part)).join(""));
}

function markupOf(content: Content): string {
  if (content === null || content === undefined || content === false) return "";
  if (content instanceof Html) return content.markup;
  if (Array.isArray(content)) return content.map(markupOf).join("");
  return escapeText(String(content));
}
