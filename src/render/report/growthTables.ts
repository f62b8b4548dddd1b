import { ageWords } from "../../campaign/ageWords.ts";
import type { Decisions, GrowthRow } from "../../campaign/decisions.ts";
import { regimeWords } from "../../compare/words.ts";
import { decimalsFor } from "../decisionWords.ts";
import { growthNotes } from "../growthNotes.ts";
import { type Content, html } from "./html.ts";
import { interval } from "./interval.ts";
import { label } from "./label.ts";
import { table } from "./table.ts";

/** More rows than this stand in growth.csv only. */
const MOST_ROWS = 150;

/** Growth with age, and with the days of moist curing. */
export function growthTables(decisions: Decisions): Content {
  const { growth } = decisions;
  if (growth.length === 0) return "";
  const tables = [
    { against: "age", caption: "Growth with age: change per tenfold age" },
    { against: "curing", caption: "Growth with the days of moist curing: change per day of curing" },
  ] as const;
  return html`<h3>Growth</h3>
<ul class="legend">
${growthNotes(decisions).map((line) => html`<li>${line}</li>\n`)}</ul>
${tables.map(({ against, caption }) => {
  const rows = growth.filter((row) => row.against === against);
  const left = rows.length - MOST_ROWS;
  return (
    rows.length > 0 &&
    html`${table(`growth-${against}`, {
      caption,
      columns: [
        { heading: "quantity" },
        { heading: "mix" },
        { heading: against === "age" ? "regime" : "curing, age" },
        { heading: "from–to" },
        { heading: "slope [95 %]", align: "right" },
        { heading: "Theil–Sen [95 %]", align: "right" },
        { heading: "steady" },
      ],
      headers: 3,
      bodies: [{ rows: rows.slice(0, MOST_ROWS).map(cellsOf) }],
    })}${left > 0 && html`<p class="aside">${left} more: they stand in growth.csv.</p>\n`}`
  );
})}`;
}

function cellsOf(row: GrowthRow): Content[] {
  const { slope, slope_lo95, slope_hi95, sen_slope, sen_lo95, sen_hi95, from_d, to_d, against } = row;
  const half = slope_lo95 === null || slope_hi95 === null ? (slope ?? 0) / 10 : (slope_hi95 - slope_lo95) / 2;
  const decimals = decimalsFor([Math.abs(half)]);
  return [
    html`${label(row.quantity)}, ${row.unit}`,
    label(row.mix ?? ""),
    label(against === "age" ? regimeWords(row) : `${row.curing ?? ""} at ${ageWords(row.age_d)}`),
    against === "age" ? `${ageWords(from_d)}–${ageWords(to_d)}` : `${from_d}–${to_d} d`,
    interval(slope, [slope_lo95, slope_hi95], { decimals, sign: true }),
    interval(sen_slope, [sen_lo95, sen_hi95], { decimals, sign: true }),
    row.verdict,
  ];
}
