import type { Decisions, PlanningRow } from "../campaign/decisions.ts";
import { decimalsFor, fixed } from "./decisionWords.ts";
import { textTable } from "./textTable.ts";

/** What the repeatability allows to show, and what more would need. */
export function planningText({ planning }: Decisions): string[] {
  if (planning.length === 0) return [];
  const columns = [
    { heading: "quantity" },
    { heading: "mean", align: "right" },
    { heading: "sd", align: "right" },
    { heading: "n now", align: "right" },
    { heading: "found alone", align: "right" },
    { heading: "found as one of several", align: "right" },
    { heading: "specimens per cell for a difference of" },
  ] as const;
  const rows = planning.map((row) => {
    const decimals = decimalsFor([row.sd]);
    const share = (value: number | null) => {
      if (value === null) return "more than any";
      const pct = hasShare(row) ? ` (${((100 * value) / row.at).toFixed(0)} %)` : "";
      return `${fixed(value, decimals)}${pct}`;
    };
    return [
      `${row.quantity}, ${row.unit}`,
      fixed(row.at, decimals),
      fixed(row.sd, decimals),
      `${row.n_now}`,
      share(row.detectable),
      row.comparisons === 1 ? "" : `${share(row.detectable_family)} of ${row.comparisons}`,
      aims(row, decimals),
    ];
  });
  return [
    "PLANNING THE NEXT CAMPAIGN",
    "found: the smallest true difference of two cells that a campaign like this finds four times out of five (80 % power), by one comparison alone and by each of several that are judged together. sd: scatter of single specimens.",
    ...textTable(columns, rows).map((line) => `  ${line}`),
    "Specimens per cell: for one comparison alone / for each of those judged together.",
  ];
}

/** Shares are asked about only where they mean something. */
function hasShare({ aims: asked }: PlanningRow): boolean {
  return asked.some(({ difference_pct }) => difference_pct !== null);
}

function aims({ aims: asked }: PlanningRow, decimals: number): string {
  const count = (n: number | null) => (n === null ? ">100" : `${n}`);
  return asked
    .map(({ difference, difference_pct, n, n_family }) => {
      const what = difference_pct === null ? fixed(difference, decimals) : `${Number(difference_pct.toPrecision(3))} %`;
      return `${what}: ${count(n)}/${count(n_family)}`;
    })
    .join(", ");
}
