import { ageWords } from "../../campaign/ageWords.ts";
import type { ContrastRow, Decisions } from "../../campaign/decisions.ts";
import { regimeWords } from "../../compare/words.ts";
import { contrastsLegend } from "../contrastsLegend.ts";
import { decimalsFor, fixed, probability } from "../decisionWords.ts";
import { counted } from "./counted.ts";
import { flagLinks } from "./flagLinks.ts";
import { grouped } from "./grouped.ts";
import { type Content, html } from "./html.ts";
import { interval } from "./interval.ts";
import { joined } from "./joined.ts";
import { label } from "./label.ts";
import { noBreak } from "./noBreak.ts";
import { plainNumbers } from "./plainNumbers.ts";
import { table } from "./table.ts";

/** More rows than this stand in contrasts.csv only. */
const MOST_ROWS = 300;

/** Every comparison with the reference: whether there is a difference, and apart from it whether there is agreement. */
export function contrastTables({ contrasts, families, asked }: Decisions): Content {
  const all = contrasts.filter(({ against }) => against === "regime");
  if (all.length === 0) return "";
  const rows = all.slice(0, MOST_ROWS);
  const groups = grouped(rows, ({ quantity, mix }) => [quantity, mix]);
  return html`<h3>Each comparison with ${label(asked.reference)}</h3>
<ul class="legend">
${legend(rows).map((line) => html`<li>${line}</li>\n`)}</ul>
${groups.map((own, i) => oneTable(own, { families, id: `contrasts-${i + 1}` }))}${
  all.length > rows.length &&
  html`<p class="aside">${all.length - rows.length} more: they stand in contrasts.csv.</p>\n`
}`;
}

function oneTable(rows: readonly ContrastRow[], options: { families: Decisions["families"]; id: string }): Content {
  const { families, id } = options;
  const { quantity, unit, mix } = rows[0]!;
  const size = families.find(({ family }) => rows.some((row) => row.family === family))?.size ?? 0;
  const decimals = decimalsFor(
    rows.flatMap(({ lo95, hi95 }) => (lo95 === null || hi95 === null ? [] : [(hi95 - lo95) / 2])),
  );
  return table(id, {
    caption: html`${label(quantity)} of ${label(mix ?? "no mix named")}, ${unit}${
      size > 0 && `; ${counted(size, "comparison")} judged together`
    }`,
    headers: 2,
    groups: [
      { heading: "", span: 5 },
      { heading: "Is there a difference?", span: 4 },
      { heading: "Do they agree within the margin?", span: 3 },
      { heading: "", span: 2 },
    ],
    columns: [
      { heading: "regime" },
      { heading: "age", align: "right" },
      { heading: "n", align: "right" },
      { heading: "value", align: "right" },
      { heading: "reference", align: "right" },
      { heading: "difference [95 %]", align: "right" },
      { heading: "share, % [95 %]", align: "right" },
      { heading: "p", align: "right" },
      { heading: "verdict" },
      { heading: "margin", align: "right" },
      { heading: "verdict" },
      { heading: "could show", align: "right" },
      { heading: "robust" },
      { heading: "read with care" },
    ],
    bodies: [{ rows: rows.map((row) => cellsOf(row, decimals)) }],
  });
}

function cellsOf(row: ContrastRow, decimals: number): Content[] {
  const { difference_verdict: differs, equivalence_verdict: agrees, robust, sensitive_to, smallest_margin } = row;
  return [
    label(noBreak(regimeWords(row))),
    noBreak(ageWords(row.age_d)),
    `${row.n}/${row.n_reference}`,
    plainNumbers(fixed(row.value, decimals)),
    plainNumbers(fixed(row.value_reference, decimals)),
    interval(row.difference, [row.lo95, row.hi95], { decimals, sign: true }),
    interval(row.ratio_pct, [row.ratio_lo95, row.ratio_hi95], { decimals: 0 }),
    probability(row.p_adjusted),
    verdict(differs, differs === "lower" || differs === "higher"),
    row.margin === null ? "" : `±${fixed(row.margin, decimals)}`,
    verdict(agrees, agrees === "within margin" || agrees === "outside margin"),
    smallest_margin === null ? "" : `±${fixed(smallest_margin, decimals)}`,
    robust === "no" ? html`no:<br>${joined(sensitive_to.map(sensitive), html`<br>`)}` : robust,
    flagLinks(row.flags.map((code) => ({ code }))),
  ];
}

/** As on the terminal; the margin has a column of its own here. */
function legend(rows: readonly ContrastRow[]): string[] {
  const margin = "margin: what the stated margin is here, in the unit of the quantity.";
  const near =
    "No margin: a share of a reference that does not differ from zero is no number; agreement is then not shown.";
  const without = rows.some((row) => row.p !== null && row.margin === null && row.equivalence_verdict === "not shown");
  const lines = contrastsLegend(rows).map((line) => (line.startsWith("margin:") ? margin : line));
  return [...lines, ...(without ? [near] : [])].map(noBreak);
}

/** `from-5 (equivalence)` → `lower edge −5 °C (agreement)`. */
function sensitive(what: string): string {
  const words = what
    .replace(/^(from|to)([+-])(\d+)/, (_, edge, sign, by) => {
      return `${edge === "from" ? "lower" : "upper"} edge ${sign === "-" ? "−" : "+"}${by} °C`;
    })
    .replace("equivalence", "agreement");
  return noBreak(words);
}

/** What is shown stands out from what is not. */
function verdict(words: string, shown: boolean): Content {
  return shown ? html`<b>${words}</b>` : html`<span class="soft">${words}</span>`;
}
