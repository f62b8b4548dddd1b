import type { Severity } from "../../flags.ts";
import { capped } from "./capped.ts";
import { counted } from "./counted.ts";
import { flagId } from "./flagId.ts";
import { type FlagGroup, type FlagPlace, gatherFlags } from "./gatherFlags.ts";
import { type Content, type Html, html } from "./html.ts";
import { joined } from "./joined.ts";
import { label } from "./label.ts";
import { noBreak } from "./noBreak.ts";
import type { Report } from "./reportTypes.ts";
import type { Section } from "./section.ts";

/** More places than this stand in the tables only. */
const MOST_PLACES = 25;

const severities: Record<Severity, { heading: string; meaning: string }> = {
  serious: { heading: "Serious", meaning: "The number is missing or should not be used." },
  caution: { heading: "With care", meaning: "The number is there; read it with this in mind." },
  note: { heading: "Good to know", meaning: "Nothing is wrong with the number." },
};

/** What was found about the data, by severity and code, with what to do and the runs concerned. */
export function flagsSection({ campaign, plan, remarks = [] }: Report): Section {
  const groups = gatherFlags(campaign);
  const failed = failedRuns(campaign.runs);
  const of = (severity: Severity): FlagGroup[] => groups.filter((group) => group.severity === severity);
  const part = (severity: Severity, first: Content = ""): Content => {
    const own = of(severity);
    if (own.length === 0 && first === "") return "";
    const { heading, meaning } = severities[severity];
    return html`<h3 class="${severity}">${heading}</h3>
<p class="aside">${meaning}</p>
${first}${own.map(groupMarkup)}`;
  };
  const told = [
    ...(plan?.remarks ?? []).map(({ source, line, message }) =>
      line === undefined ? `${source}: ${message}` : `${source}, line ${line}: ${message}`,
    ),
    ...remarks,
  ];
  const unlisted = plan?.unlisted ?? [];
  const parts = [part("serious", failed), part("caution"), part("note")];
  return {
    id: "flags",
    heading: "What to look at",
    content: html`${parts.every((one) => one === "") && html`<p>No run failed, and nothing is flagged.</p>\n`}${parts}${
      told.length > 0 &&
      html`<h3>Remarks on the tables</h3>\n${capped(told, { most: MOST_PLACES, rest: "what the command said" })}`
    }${
      unlisted.length > 0 &&
      html`<h3>Left out</h3>
<p>${counted(unlisted.length, "file")} of the folder ${unlisted.length === 1 ? "is" : "are"} not in the run sheet and took no part.</p>
${capped(unlisted.map(label), { most: MOST_PLACES, rest: "the folder" })}`
    }`,
  };
}

function failedRuns(runs: Report["campaign"]["runs"]): Content {
  const failed = runs.flatMap((run) => (run.status === "failed" ? [run] : []));
  if (failed.length === 0) return "";
  return html`<div class="finding">
<h4>${counted(failed.length, "run")} could not be evaluated</h4>
<p>Repair what the message names, or take the run out of the run sheet, and evaluate again.</p>
${capped(
  failed.map(({ file, error }) => html`${label(file)} (${error.code}): ${error.message}`),
  { most: MOST_PLACES, rest: "runs.csv" },
)}</div>
`;
}

function groupMarkup({ code, advice, places }: FlagGroup): Html {
  const id = flagId(code);
  const list = capped(places.map(placeMarkup), { most: MOST_PLACES, rest: "the column flags of the CSV tables" });
  return html`<div class="finding"${id !== null && html` id="${id}"`}>
<h4>${code.replaceAll("-", " ")}</h4>
<p>${advice}</p>
${places.length <= 2 ? list : html`<details><summary>${counted(places.length, "place")} flagged ${code}</summary>\n${list}</details>\n`}</div>
`;
}

function placeMarkup({ where, windows, sentence }: FlagPlace): Html {
  if (where === null) return html`${noBreak(sentence)}`;
  const which = windows.length === 0 ? "" : html` <span class="soft">(${joined(windows.map(label))})</span>`;
  return html`${label(where)}${which}: ${noBreak(sentence)}`;
}
