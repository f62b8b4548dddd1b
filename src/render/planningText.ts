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
    { heading: "found now", align: "right" },
    { heading: "one of", align: "right" },
    { heading: "found now", align: "right" },
    { heading: "specimens per cell for a difference of" },
  ] as const;
  const rows = planning.map((row) => {
    const decimals = decimalsFor([row.sd]);
    const share = (value: number | null) => {
      if (value === null) return "more than any";
      const pct = Math.abs(row.at) > 3 * row.sd ? ` (${((100 * value) / Math.abs(row.at)).toFixed(0)} %)` : "";
      return `${fixed(value, decimals)}${pct}`;
    };
    return [
      `${row.quantity}, ${row.unit}`,
      fixed(row.at, decimals),
      fixed(row.sd, decimals),
      `${row.n_now}`,
      share(row.detectable),
      `${row.comparisons}`,
      share(row.detectable_family),
      aims(row, decimals),
    ];
  });
  return [
    "PLANNING THE NEXT CAMPAIGN",
    "found now: the smallest true difference of two cells that such a campaign finds four times out of five (80 % power), for one comparison alone and for one of several that are judged together.",
    ...textTable(columns, rows).map((line) => `  ${line}`),
    "Specimens: for one comparison / for each of those judged together.",
  ];
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
