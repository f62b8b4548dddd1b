import type { Severity } from "../../flags.ts";
import { flagId } from "./flagId.ts";
import { type Content, html } from "./html.ts";
import { joined } from "./joined.ts";

/** Codes with a link to what the page says about them; notes are left out. */
export function flagLinks(flags: readonly { code: string; severity?: Severity }[]): Content {
  const codes = [...new Set(flags.flatMap(({ code, severity }) => (severity === "note" ? [] : code)))];
  return joined(
    codes.map((code) => {
      const id = flagId(code);
      return id === null ? code : html`<a href="#${id}">${code}</a>`;
    }),
  );
}
