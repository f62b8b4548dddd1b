import { ageWords } from "../../campaign/ageWords.ts";
import type { Decisions, PropertyCellRow } from "../../campaign/decisions.ts";
import { regimeWords } from "../../compare/words.ts";
import { decimalsFor } from "../decisionWords.ts";
import { grouped } from "./grouped.ts";
import { type Content, html } from "./html.ts";
import { interval } from "./interval.ts";
import { label } from "./label.ts";
import { noBreak } from "./noBreak.ts";
import { table } from "./table.ts";

/** Measured properties of sister specimens: one table per property and mix. */
export function propertyTables({ properties, asked }: Decisions): Content {
  if (properties.length === 0) return "";
  const share = asked.reference_age_d === null ? null : ageWords(asked.reference_age_d);
  return html`<h3>Properties</h3>
${grouped(properties, ({ property, mix }) => [property, mix]).map((rows, i) =>
  oneTable(rows, { id: `properties-${i + 1}`, reference: asked.reference, share }),
)}`;
}

function oneTable(
  rows: readonly PropertyCellRow[],
  options: { id: string; reference: string; share: string | null },
): Content {
  const { id, reference, share } = options;
  const { property, unit, mix } = rows[0]!;
  const halves = rows.flatMap(({ lo95, hi95 }) => (lo95 === null || hi95 === null ? [] : [(hi95 - lo95) / 2]));
  const decimals = decimalsFor(halves.length > 0 ? halves : rows.map(({ value }) => Math.abs(value) / 50));
  const since = rows.some(({ since_curing }) => since_curing !== null);
  const cells = rows.map((row): Content[] => [
    label(noBreak(regimeWords(row))),
    noBreak(ageWords(row.age_d)),
    row.n_specimens,
    interval(row.value, [row.lo95, row.hi95], { decimals }),
    interval(row.retention_pct, [row.retention_lo95, row.retention_hi95], { decimals: 0 }),
    ...(share === null ? [] : [interval(row.share_pct, [row.share_lo95, row.share_hi95], { decimals: 0 })]),
    ...(since
      ? [interval(row.since_curing, [row.since_curing_lo95, row.since_curing_hi95], { decimals, sign: true })]
      : []),
  ]);
  return table(id, {
    caption: html`${label(property)} of ${label(mix ?? "no mix named")}, ${unit}`,
    headers: 2,
    columns: [
      { heading: "regime" },
      { heading: "age", align: "right" },
      { heading: "n", align: "right" },
      { heading: "mean [95 %]", align: "right" },
      { heading: html`share of ${label(reference)}, % [95 %]`, align: "right" },
      ...(share === null ? [] : [{ heading: `share of ${share}, % [95 %]`, align: "right" } as const]),
      ...(since ? [{ heading: "since the end of moist curing [95 %]", align: "right" } as const] : []),
    ],
    bodies: [{ rows: cells }],
  });
}
