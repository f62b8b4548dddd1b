import { escapeText } from "./escapeText.ts";
import { Html, html } from "./html.ts";
import { label } from "./label.ts";
import type { Report } from "./reportTypes.ts";
import type { Section } from "./section.ts";
import { table } from "./table.ts";

/** More files than this stand in runs.csv only. */
const MOST = 200;

/** What it takes to make the numbers again: program, command, protocol, and the files by their hash. */
export function provenanceSection({ campaign, source, command, made }: Report): Section {
  const { version, schema, protocol, runs } = campaign;
  const hashed = runs.filter(({ sha256 }) => sha256 !== null);
  const left = hashed.length - MOST;
  const lines = JSON.stringify(protocol, null, 2).split("\n");
  return {
    id: "provenance",
    heading: "Where it comes from",
    content: html`<dl class="facts">
<div><dt>Program</dt><dd>tg-hydrates ${version}</dd></div>
${command !== undefined && html`<div><dt>Command</dt><dd><code>${command}</code></dd></div>\n`}${source !== undefined && html`<div><dt>Runs from</dt><dd>${label(source)}</dd></div>\n`}${made !== undefined && html`<div><dt>Made</dt><dd>${made}</dd></div>\n`}<div><dt>Campaign</dt><dd>${schema}; in full in campaign.json</dd></div>
<div><dt>Protocol</dt><dd>${label(protocol.name)} (${protocol.schema}), settled by ${protocol.settled.by}</dd></div>
</dl>
<details><summary>The settled protocol as JSON</summary>
<pre class="scroll" role="region" aria-label="The settled protocol as JSON" tabindex="0">${new Html(lines.map(escapeText).join("\n"))}</pre>
</details>
${
  hashed.length === 0
    ? html`<p>No hash of a file is known.</p>\n`
    : html`<details><summary>Files and their SHA-256</summary>
${table("files-caption", {
  caption: "Files that were evaluated, with their SHA-256",
  columns: [{ heading: "file" }, { heading: "SHA-256" }],
  bodies: [
    { rows: hashed.slice(0, MOST).map(({ file, sha256 }) => [label(file), html`<code class="hash">${sha256}</code>`]) },
  ],
})}</details>
${left > 0 && html`<p class="aside">${left} more: they stand in runs.csv.</p>\n`}`
}`,
  };
}
