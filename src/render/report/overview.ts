import { ageWords } from "../../campaign/ageWords.ts";
import type { Campaign } from "../../campaign/types.ts";
import { regimeWords } from "../../compare/words.ts";
import { counted } from "./counted.ts";
import { type Content, type Html, html } from "./html.ts";
import { joined } from "./joined.ts";
import { label } from "./label.ts";
import { noBreak } from "./noBreak.ts";
import type { Report } from "./reportTypes.ts";

/** More names than this are counted instead. */
const MOST_NAMES = 30;

/** What was run: the head of the page. */
export function overview({ campaign, source }: Report): Html {
  const { runs, mixes, protocol, version, decisions } = campaign;
  const specimens = runs.filter(({ role }) => role === "specimen");
  const cells = new Set(campaign.ages.map((row) => JSON.stringify([row.mix, row.curing, row.curing_d, row.age_d])));
  const pieces = new Set(
    specimens.map((run) => JSON.stringify([run.mix, run.curing, run.curing_d, run.age_d, run.specimen])),
  );
  const others = new Map<string, number>();
  for (const { role } of runs) if (role !== "specimen") others.set(role, (others.get(role) ?? 0) + 1);
  const ages = [...new Set(specimens.map(({ age_d }) => age_d))].sort((a, b) => (a ?? 0) - (b ?? 0));
  const used = new Set(runs.map(({ mix }) => mix));
  const facts: [string, Content][] = [
    ["Runs", runCounts(runs)],
    ["Specimens", `${counted(pieces.size, "specimen")} in ${counted(cells.size, "cell")} (mix, curing, age)`],
    ["Mixes", names(distinct([...used].map((mix) => mix ?? "not named")))],
    ["Curing", names(distinct(specimens.map((run) => noBreak(regimeWords(run)))))],
    ["Ages", names(ages.map((age) => noBreak(ageWords(age))))],
    ["Other runs", joined([...others].map(([role, count]) => `${count} of role ${role}`))],
    ["In the mix table", mixes.length > used.size ? names(mixes.map(({ mix }) => mix)) : ""],
    ["Protocol", html`${label(protocol.name)}, indices per 100 g of ${bases[protocol.basis]}`],
    ["Compared with", decisions === undefined ? "nothing yet" : label(decisions.asked.reference)],
  ];
  return html`<header>
<p class="over">Thermogravimetry of cement hydrates, tg-hydrates ${version}</p>
<h1>Hydrates by age${source !== undefined && html`: ${label(source)}`}</h1>
<dl class="facts">
${facts.filter(([, fact]) => fact !== "" && !(Array.isArray(fact) && fact.length === 0)).map(([name, fact]) => html`<div><dt>${name}</dt><dd>${fact}</dd></div>\n`)}</dl>
</header>
`;
}

const bases: Record<Campaign["protocol"]["basis"], string> = {
  ignited: "ignited mass",
  initial: "initial mass",
  binder: "anhydrous binder",
};

function runCounts(runs: Campaign["runs"]): string {
  const count = (status: string): number => runs.filter((run) => run.status === status).length;
  return `${runs.length} (${count("done")} done, ${count("incomplete")} incomplete, ${count("failed")} failed)`;
}

function distinct(names: readonly string[]): string[] {
  return [...new Set(names)];
}

function names(all: readonly string[]): Content {
  const shown = all.slice(0, MOST_NAMES).map(label);
  return all.length > MOST_NAMES ? html`${joined(shown)} and ${all.length - MOST_NAMES} more` : joined(shown);
}
