import { ageWords } from "../../campaign/ageWords.ts";
import type { AgeRow, Campaign } from "../../campaign/types.ts";
import { regimeWords } from "../../compare/words.ts";
import { valueOrNull } from "../../measured.ts";
import { decimalsFor, fixed } from "../decisionWords.ts";
import { flagLinks } from "./flagLinks.ts";
import { grouped } from "./grouped.ts";
import { type Content, type Html, html } from "./html.ts";
import { label } from "./label.ts";
import { noBreak } from "./noBreak.ts";
import { plainNumbers } from "./plainNumbers.ts";
import type { Section } from "./section.ts";
import { table } from "./table.ts";

const bases: Record<AgeRow["basis"], string> = {
  ignited: "ignited mass",
  initial: "initial mass",
  binder: "anhydrous binder",
};

/** The indices: one table per mix, one line per age. */
export function agesSection({ ages, runs }: Campaign): Section {
  const mixes = [...new Set(ages.map(({ mix }) => mix))];
  const none = runs.some(({ role }) => role === "specimen")
    ? "No specimen could be evaluated: there is no index."
    : "No run has the role specimen: there is no index.";
  return {
    id: "ages",
    heading: "Indices by age",
    content:
      ages.length === 0
        ? html`<p>${none}</p>\n`
        : html`<p>${signsOf(ages)}</p>
${mixes.map((mix, i) =>
  oneMix(
    ages.filter((row) => row.mix === mix),
    { mix, id: `ages-${i + 1}` },
  ),
)}`,
  };
}

/** What the signs of the tables mean, those that stand there. */
function signsOf(ages: readonly AgeRow[]): string {
  const valued = ages.filter(({ index }) => valueOrNull(index) !== null);
  const alone = valued.filter(({ index_hi95 }) => index_hi95 === null).length;
  const sentences = [
    alone < valued.length && "Mean ± half of its 95 % interval. Digits follow the width of the intervals.",
    alone > 0 && "Without ± the scatter of specimens is not known, and there is no interval.",
    valued.length < ages.length && "A dash: missing.",
    valued.some(({ flags }) => flags.some(({ severity }) => severity !== "note")) &&
      "An asterisk: read with care, for the reason in the last column.",
  ];
  return sentences.filter(Boolean).join(" ");
}

function oneMix(rows: readonly AgeRow[], { mix, id }: { mix: string | null; id: string }): Html {
  const windows = [...new Map(rows.map((row) => [row.window, row])).values()];
  const decimals = new Map(
    windows.map(({ window }) => [window, digitsOf(rows.filter((row) => row.window === window))]),
  );
  const regimes = grouped(rows, ({ curing, curing_d }) => [curing, curing_d]);
  return table(id, {
    caption: html`${label(mix ?? "No mix named")}: mass lost per window, g per 100 g of ${bases[rows[0]!.basis]}`,
    columns: [
      { heading: "age", align: "right" },
      { heading: html`<abbr title="specimens">n</abbr>`, align: "right" },
      ...windows.map(
        ({ window, rule }) => ({ heading: html`${label(window)}<br><small>${rule}</small>`, align: "right" }) as const,
      ),
      { heading: "read with care" },
    ],
    bodies: regimes.map((own) => ({
      heading: label(noBreak(regimeWords(own[0]!))),
      rows: grouped(own, ({ age_d }) => age_d).map((line): Content[] => [
        noBreak(ageWords(line[0]!.age_d)),
        specimensOf(line),
        ...windows.map(({ window }) =>
          numberOf(
            line.find((row) => row.window === window),
            decimals.get(window)!,
          ),
        ),
        flagLinks(line.flatMap(({ flags }) => flags)),
      ]),
    })),
  });
}

/** Two digits of the interval; without intervals four figures of the value. */
function digitsOf(rows: readonly AgeRow[]): number {
  return decimalsFor(
    rows.flatMap(({ index, index_hi95 }) => {
      const value = valueOrNull(index);
      return value === null ? [] : [index_hi95 === null ? Math.abs(value) / 100 : index_hi95 - value];
    }),
  );
}

/** Specimens of the windows, from the fewest to the most. */
function specimensOf(line: readonly AgeRow[]): string {
  const counts = line.map(({ n_specimens }) => n_specimens);
  const [low, high] = [Math.min(...counts), Math.max(...counts)];
  return low === high ? `${low}` : `${low}–${high}`;
}

function numberOf(row: AgeRow | undefined, decimals: number): Content {
  if (row === undefined) return "";
  const value = valueOrNull(row.index);
  if (value === null) return "—";
  const half =
    row.index_hi95 === null ? "" : html` <span class="half">± ${fixed(row.index_hi95 - value, decimals)}</span>`;
  const mark = row.flags.some(({ severity }) => severity !== "note") && "*";
  return html`${plainNumbers(fixed(value, decimals))}${half}${mark}`;
}
