import type { ContrastRow, Decisions } from "../campaign/decisions.ts";
import { ageWords, listWords, regimeWords } from "../compare/words.ts";

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
  const marked = lines.some((line) => line.includes("*"));
  const note =
    "*: no longer so when an edge of the window moves by 5 °C, or another rule counts the loss: read it with care.";
  return ["WHAT IS SHOWN (in brackets: share of the reference)", ...lines, ...(marked ? [note] : [])];
}

function findings(rows: readonly ContrastRow[]): string[] {
  const quantities = [...new Set(rows.map(({ quantity }) => quantity))];
  const named = (keep: (row: ContrastRow) => boolean, words: (row: ContrastRow) => string) =>
    quantities.flatMap((quantity) => {
      const own = rows.filter((row) => row.quantity === quantity && keep(row));
      return own.length === 0 ? [] : [`${quantity} at ${listWords(own.map(words))}`];
    });
  const shown = (verdict: string) =>
    named(
      (row) => row.difference_verdict === verdict,
      (row) => cellWords(row, "difference"),
    );
  const lower = shown("lower");
  const higher = shown("higher");
  const isWithin = (row: ContrastRow) => row.equivalence_verdict === "within margin";
  const within = named(isWithin, (row) => cellWords(row, "equivalence"));
  const open = named(
    (row) => row.difference_verdict === "not shown" && !isWithin(row),
    ({ age_d }) => ageWords(age_d),
  );
  const without = rows.filter(({ p }) => p === null).length;
  return [
    ...(lower.length > 0 ? [`lower: ${lower.join("; ")}.`] : []),
    ...(higher.length > 0 ? [`higher: ${higher.join("; ")}.`] : []),
    ...(within.length > 0 ? [`within the margin: ${within.join("; ")}.`] : []),
    ...(open.length > 0 ? [`neither a difference nor agreement shown: ${open.join("; ")}.`] : []),
    ...(without > 0 ? [`no verdict for ${without} of ${rows.length} comparisons: the reasons stand at the end.`] : []),
  ];
}

/** `7 d (85 %)*`. */
function cellWords({ age_d, ratio_pct, sensitive_to }: ContrastRow, verdict: "difference" | "equivalence"): string {
  const ratio = ratio_pct === null ? "" : ` (${ratio_pct.toFixed(0)} %)`;
  return `${ageWords(age_d)}${ratio}${sensitive_to.some((one) => one.includes(verdict)) ? "*" : ""}`;
}
