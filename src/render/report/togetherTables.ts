import type { Decisions, TogetherRow } from "../../campaign/decisions.ts";
import { probability } from "../decisionWords.ts";
import { type Content, html } from "./html.ts";
import { interval } from "./interval.ts";
import { label } from "./label.ts";
import { table } from "./table.ts";

/** Whether properties follow the hydrates, over cells. */
export function togetherTables({ together, properties }: Decisions): Content {
  if (properties.length === 0) return "";
  const told = together.filter(({ r }) => r !== null);
  const tables = [
    { of: "age", caption: "Differences from the mean of each age, since everything grows with age" },
    { of: "none", caption: "Ages thrown together. This shows growth, not that one makes the other" },
  ] as const;
  return html`<h3>Do hydrates and properties go together?</h3>
${
  told.length === 0
    ? html`<p>Too few cells have both a run and a property: nothing can be said.</p>\n`
    : html`<p>Correlation r: 1 they rise together, −1 one falls as the other rises, 0 nothing of the kind. p: how often chance pairing gives such an r (by permutation). A correlation is no cause; and not shown is not none: so few cells show strong ones only. Verdicts are each by itself, 5 %.</p>
${tables.map(({ of, caption }) => oneTable(told, { of, caption }))}`
}`;
}

function oneTable(all: readonly TogetherRow[], { of, caption }: { of: string; caption: string }): Content {
  const rows = all.filter(({ adjusted_for }) => adjusted_for === of);
  if (rows.length === 0) return html`<p>${caption}: no age has enough cells with both.</p>\n`;
  return table(`together-${of}`, {
    caption,
    headers: 3,
    columns: [
      { heading: "property" },
      { heading: "index" },
      { heading: "mix" },
      { heading: "cells", align: "right" },
      { heading: "correlation" },
      { heading: "r [95 %]", align: "right" },
      { heading: "p", align: "right" },
      { heading: "verdict" },
    ],
    bodies: [
      {
        rows: rows.map(({ property, quantity, mix, n_cells, method, r, lo95, hi95, p, verdict }) => [
          label(property),
          label(quantity),
          label(mix ?? "all"),
          n_cells,
          method === "pearson" ? "straight" : "by rank",
          interval(r, [lo95, hi95], { decimals: 2 }),
          probability(p),
          verdict,
        ]),
      },
    ],
  });
}
