import { terminalSafe } from "../terminalSafe.ts";

const entities: Record<string, string> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#39;" };

/**
 * Text for an element or a quoted attribute of a page. Controls, line ends and marks that turn the direction of writing are
 * shown as `\u{202e}`; everything else stays as it is.
 */
export function escapeText(text: string): string {
  return terminalSafe(text).replaceAll(/[&<>"']/g, (character) => entities[character]!);
}
