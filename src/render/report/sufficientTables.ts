import type { Decisions, SufficientRow } from "../../campaign/decisions.ts";
import { decimalsFor, fixed, probability } from "../decisionWords.ts";
import { type Content, html } from "./html.ts";
import { label } from "./label.ts";
import { noBreak } from "./noBreak.ts";
import { plainNumbers } from "./plainNumbers.ts";
import { table } from "./table.ts";

/** More tables than this stand in sufficient.csv only. */
const MOST = 60;

/** The steps from the longest curing down; never without their caution. */
export function sufficientTables({ sufficient, asked }: Decisions): Content {
  if (sufficient.length === 0) return "";
  const judged = sufficient.filter(({ margin, requirement }) => margin !== null || requirement !== null);
  const cautions = [...new Set(sufficient.map(({ caution }) => caution))];
  const stated = asked.margins.length + asked.requirements.length;
  const none =
    stated === 0
      ? "Not judged: no margin and no requirement was stated."
      : "Not judged: no margin and no requirement was stated for a quantity that has several durations of curing.";
  return html`<h3>How short a curing is enough?</h3>
<p>${
    judged.length === 0
      ? none
      : "From the longest duration down; the first that is not shown to hold ends the search. Each step at a risk of 5 % of calling too short a curing sufficient."
  }</p>
${judged.slice(0, MOST).map((row, i) => oneTable(row, `sufficient-${i + 1}`))}${
  judged.length > MOST && html`<p class="aside">${judged.length - MOST} more: they stand in sufficient.csv.</p>\n`
}${cautions.map((text) => html`<p class="caution-line">${text}</p>\n`)}`;
}

function oneTable({ steps, unit, requirement, sentence }: SufficientRow, id: string): Content {
  const decimals = decimalsFor(
    steps.flatMap(({ value, bound95 }) => (value === null || bound95 === null ? [] : [Math.abs(value - bound95)])),
  );
  const bound = requirement !== null;
  const rows = steps.map((step): Content[] => [
    String(Number(step.curing_d.toPrecision(6))),
    label(step.curing ?? ""),
    step.n,
    plainNumbers(fixed(step.value, decimals)),
    step.share_pct === null ? "" : step.share_pct.toFixed(0),
    step.share_lower95 === null ? "" : step.share_lower95.toFixed(0),
    probability(step.p),
    ...(bound ? [plainNumbers(fixed(step.bound95, decimals))] : []),
    step.verdict,
  ]);
  return table(id, {
    caption: noBreak(sentence),
    columns: [
      { heading: "days", align: "right" },
      { heading: "curing" },
      { heading: "n", align: "right" },
      { heading: `mean, ${unit}`, align: "right" },
      { heading: "of the longest, %", align: "right" },
      { heading: "at least (95 %), %", align: "right" },
      { heading: "p", align: "right" },
      ...(bound ? [{ heading: `mean at ${requirement.at} (95 %)`, align: "right" } as const] : []),
      { heading: "verdict" },
    ],
    bodies: [{ rows }],
  });
}
