import type { ContrastRow, Decisions } from "../campaign/decisions.ts";
import { ageWords, list, regimeWords } from "./decisionWords.ts";

/** What is shown for each regime, in one sentence per kind of finding. */
export function glanceText({ contrasts }: Decisions): string[] {
  const rows = contrasts.filter(({ against }) => against === "regime");
  if (rows.length === 0) return [];
  const groups = new Map<string, ContrastRow[]>();
  for (const row of rows) {
    const key = JSON.stringify([row.mix, row.curing, row.curing_d]);
    groups.set(key, [...(groups.get(key) ?? []), row]);
  }
  const lines = [...groups.values()].flatMap((own) => {
    const [first] = own;
    return [`${first!.mix ?? "-"}, ${regimeWords(first!)}`, ...findings(own).map((line) => `  ${line}`)];
  });
  const marked = rows.some(({ robust }) => robust === "no");
  const note = "*: a verdict changes when an edge of the window moves by 5 °C or another rule counts (column robust).";
  return ["WHAT IS SHOWN", ...lines, ...(marked ? [note] : [])];
}

function findings(rows: readonly ContrastRow[]): string[] {
  const quantities = [...new Set(rows.map(({ quantity }) => quantity))];
  const of = (verdict: string, name: "difference_verdict" | "equivalence_verdict") =>
    quantities.flatMap((quantity) => {
      const own = rows.filter((row) => row.quantity === quantity && row[name] === verdict);
      return own.length === 0 ? [] : [`${quantity} at ${list(own.map(cellWords))}`];
    });
  const lower = of("lower", "difference_verdict");
  const higher = of("higher", "difference_verdict");
  const within = of("within margin", "equivalence_verdict");
  const open = quantities.flatMap((quantity) => {
    const own = rows.filter(
      (row) =>
        row.quantity === quantity &&
        row.difference_verdict === "not shown" &&
        row.equivalence_verdict !== "within margin",
    );
    return own.length === 0 ? [] : [`${quantity} at ${list(own.map(({ age_d }) => ageWords(age_d)))}`];
  });
  const without = rows.filter(({ p }) => p === null).length;
  return [
    ...(lower.length > 0 ? [`lower: ${lower.join("; ")}.`] : []),
    ...(higher.length > 0 ? [`higher: ${higher.join("; ")}.`] : []),
    ...(within.length > 0 ? [`within the margin: ${within.join("; ")}.`] : []),
    ...(open.length > 0 ? [`neither a difference nor agreement shown: ${open.join("; ")}.`] : []),
    ...(without > 0 ? [`no verdict for ${without} of ${rows.length} comparisons: see the end.`] : []),
  ];
}

/** `7 d (85 %)*`. */
function cellWords({ age_d, ratio_pct, robust }: ContrastRow): string {
  const ratio = ratio_pct === null ? "" : ` (${ratio_pct.toFixed(0)} %)`;
  return `${ageWords(age_d)}${ratio}${robust === "no" ? "*" : ""}`;
}
