import type { Decisions, PlanningRow } from "../../campaign/decisions.ts";
import { decimalsFor, fixed } from "../decisionWords.ts";
import { type Content, html } from "./html.ts";
import { label } from "./label.ts";
import { plainNumbers } from "./plainNumbers.ts";
import { table } from "./table.ts";

/** What the repeatability allows to show, and what more would need. */
export function planningTable({ planning }: Decisions): Content {
  if (planning.length === 0) return "";
  const rows = planning.map((row): Content[] => {
    const decimals = decimalsFor([row.sd]);
    const found = (value: number | null): string => {
      if (value === null) return "more than any";
      const hasShare = row.aims.some(({ difference_pct }) => difference_pct !== null);
      return `${fixed(value, decimals)}${hasShare ? ` (${((100 * value) / row.at).toFixed(0)} %)` : ""}`;
    };
    return [
      html`${label(row.quantity)}, ${row.unit}`,
      plainNumbers(fixed(row.at, decimals)),
      fixed(row.sd, decimals),
      row.n_now,
      found(row.detectable),
      row.comparisons === 1 ? "" : `${found(row.detectable_family)} of ${row.comparisons}`,
      aims(row, decimals),
    ];
  });
  return html`<h3>Planning the next campaign</h3>
<p>Found: the smallest true difference of two cells that a campaign like this finds four times out of five (80 % power), by one comparison alone and by each of several that are judged together. Specimens per cell: for one comparison alone / for each of those judged together.</p>
${table("planning", {
  caption: "What the scatter of specimens allows to find",
  columns: [
    { heading: "quantity" },
    { heading: "mean", align: "right" },
    { heading: "sd", align: "right" },
    { heading: "n now", align: "right" },
    { heading: "found alone", align: "right" },
    { heading: "found as one of several", align: "right" },
    { heading: "specimens per cell for a difference of" },
  ],
  bodies: [{ rows }],
})}`;
}

function aims({ aims: asked }: PlanningRow, decimals: number): string {
  const count = (n: number | null): string => (n === null ? ">100" : `${n}`);
  return asked
    .map(({ difference, difference_pct, n, n_family }) => {
      const what = difference_pct === null ? fixed(difference, decimals) : `${Number(difference_pct.toPrecision(3))} %`;
      return `${what}: ${count(n)}/${count(n_family)}`;
    })
    .join(", ");
}
