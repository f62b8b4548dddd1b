import type { Campaign } from "../../campaign/types.ts";
import { html } from "./html.ts";
import { label } from "./label.ts";
import { methods } from "./methods.ts";
import { noBreak } from "./noBreak.ts";
import type { Section } from "./section.ts";
import { table } from "./table.ts";

/** How the numbers were made: a paragraph for a paper, its references, and where the windows come from. */
export function methodsSection(campaign: Campaign): Section {
  const { paragraphs, references } = methods(campaign);
  const { protocol } = campaign;
  const notes = protocol.windows.map(({ name, from_C, to_C, rule, note = "" }) => [
    label(name),
    `${from_C}–${to_C}`,
    rule,
    note,
  ]);
  return {
    id: "methods",
    heading: "Methods",
    content: html`<p class="aside">Written from the settled protocol, to be taken over into a paper.${
      protocol.description !== undefined && html` The protocol is meant for: ${label(protocol.description)}`
    }</p>
<div class="quote">
${paragraphs.map((text) => html`<p>${noBreak(text)}</p>\n`)}</div>
<h3>References</h3>
<ul>${references.map((text) => html`<li>${text}</li>\n`)}</ul>
<h3>Where the windows come from</h3>
${table("windows-caption", {
  caption: "Windows of the protocol, with what its author notes about them",
  columns: [{ heading: "window" }, { heading: "range, °C", align: "right" }, { heading: "rule" }, { heading: "note" }],
  bodies: [{ rows: notes }],
})}`,
  };
}
