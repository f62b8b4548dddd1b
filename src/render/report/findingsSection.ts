import type { Decisions } from "../../campaign/decisions.ts";
import type { Campaign } from "../../campaign/types.ts";
import { regimeWords } from "../../compare/words.ts";
import { type Finding, glance } from "../glance.ts";
import { counted } from "./counted.ts";
import { type Content, type Html, html } from "./html.ts";
import { indexFindings } from "./indexFindings.ts";
import { label } from "./label.ts";
import { noBreak } from "./noBreak.ts";
import type { Section } from "./section.ts";

/** More sentences than this of one kind stand in the tables only. */
const MOST = 40;

/** What the campaign shows: the verdicts where it was compared, otherwise what the means alone can say. */
export function findingsSection(campaign: Campaign): Section {
  const { decisions, runs } = campaign;
  const content =
    runs.length === 0
      ? html`<p>There is no run: nothing was measured, and nothing is found.</p>\n`
      : html`${decisions === undefined ? "" : verdicts(decisions)}${indexFindings(campaign)}`;
  return {
    id: "findings",
    heading: "Findings",
    content: html`${content}<p class="caution-line">Indices are no acceptance test, and not shown is never the same as equal: <a href="#cautions">cautions</a>.</p>
`,
  };
}

const about: Record<Finding["about"], string> = {
  difference: "Difference",
  agreement: "Agreement",
  neither: "Open",
};

function verdicts(decisions: Decisions): Html {
  const { asked, contrasts, parted, remarks } = decisions;
  const regimes = glance(decisions);
  const marked = regimes.some(({ findings }) => findings.some(({ text }) => text.includes("*")));
  const judged = decisions.sufficient.filter(({ margin, requirement }) => margin ?? requirement);
  const cautions = [...new Set(judged.map(({ caution }) => caution))];
  return html`<h3>Against ${label(asked.reference)}, at the same mix and age</h3>
${counts(contrasts)}${regimes.slice(0, MOST).map(
  ({ findings, ...regime }) => html`<div class="regime">
<h4>${label(noBreak(`${regime.mix ?? "No mix named"}, ${regimeWords(regime)}`))}</h4>
<dl class="verdicts">
${findings.map((one) => html`<div class="${one.about}"><dt>${about[one.about]}: <b>${one.kind}</b></dt><dd>${noBreak(one.text)}.</dd></div>\n`)}</dl>
</div>
`,
)}${regimes.length > MOST && html`<p class="aside">${counted(regimes.length - MOST, "regime")} more: they stand in contrasts.csv.</p>\n`}<p class="aside">In brackets: share of the reference.${
    marked &&
    " * : no longer so when an edge of the window moves by 5 °C, or another rule counts the loss: read it with care."
  }</p>
${
  judged.length > 0 &&
  html`<h3>How short a curing is enough?</h3>
${sentences(
  judged.map(({ sentence }) => sentence),
  "sufficient.csv",
)}${cautions.map((text) => html`<p class="caution-line">${text}</p>\n`)}`
}${
  parted.length > 0 &&
  html`<h3>Where hydrates and properties part ways</h3>
${sentences(
  parted.map(({ sentence }) => sentence),
  "campaign.json",
)}`
}${
  remarks.length > 0 &&
  html`<h3>What could not be judged</h3>
${sentences(remarks, "campaign.json")}`
}`;
}

/** How many verdicts of each kind there are; the two questions are counted apart. */
function counts(rows: Decisions["contrasts"]): Content {
  const own = rows.filter(({ against }) => against === "regime");
  const judged = own.filter(({ p }) => p !== null);
  if (own.length === 0) return html`<p>There is no other regime to compare.</p>\n`;
  const shown = judged.filter(({ difference_verdict: v }) => v === "lower" || v === "higher").length;
  const asked = judged.filter(({ equivalence_verdict: v }) => v !== "no margin given");
  const within = asked.filter(({ equivalence_verdict: v }) => v === "within margin").length;
  const outside = asked.filter(({ equivalence_verdict: v }) => v === "outside margin").length;
  return html`<ul>
<li><b>Is there a difference?</b> Shown in ${shown} of ${counted(judged.length, "comparison")}; in the other ${judged.length - shown} these data cannot tell.</li>
<li><b>Do they agree within the margin?</b> ${
    asked.length === 0
      ? "Not asked: no margin was stated."
      : `Shown in ${within} of ${counted(asked.length, "comparison")}; shown to lie beyond the margin in ${outside}; open in ${asked.length - within - outside}.`
  }</li>
${own.length > judged.length && html`<li><b>No verdict</b> for ${own.length - judged.length}, for the reasons below.</li>\n`}</ul>
`;
}

function sentences(all: readonly string[], file: string): Html {
  return html`<ul>
${all.slice(0, MOST).map((text) => html`<li>${noBreak(text)}</li>\n`)}</ul>
${all.length > MOST && html`<p class="aside">${all.length - MOST} more: they stand in ${file}.</p>\n`}`;
}
