import { ageWords } from "../campaign/ageWords.ts";
import type { ContrastRow, Decisions } from "../campaign/decisions.ts";
import { listWords } from "../compare/words.ts";
import type { CellKey } from "../protocol/types.ts";

/** One kind of finding about a regime. Difference and agreement are two verdicts, and stand in two findings. */
export interface Finding {
  about: "difference" | "agreement" | "neither";
  /** `lower`, `higher`, `within the margin`, … */
  kind: string;
  /** Quantities with their ages, the share of the reference in brackets. */
  text: string;
}

/** What is shown of one regime against the reference. */
export interface Glance extends Pick<CellKey, "mix" | "curing" | "curing_d"> {
  findings: Finding[];
}

/** What is shown for each regime against the reference; `*` marks a verdict that depends on edges or rule. */
export function glance({ contrasts }: Pick<Decisions, "contrasts">): Glance[] {
  const groups = new Map<string, ContrastRow[]>();
  for (const row of contrasts) {
    if (row.against !== "regime") continue;
    const key = JSON.stringify([row.mix, row.curing, row.curing_d]);
    groups.set(key, [...(groups.get(key) ?? []), row]);
  }
  return [...groups.values()].map((own) => {
    const { mix, curing, curing_d } = own[0]!;
    return { mix, curing, curing_d, findings: findingsOf(own) };
  });
}

function findingsOf(rows: readonly ContrastRow[]): Finding[] {
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
  const finding = (about: Finding["about"], kind: string, words: readonly string[]): Finding[] =>
    words.length === 0 ? [] : [{ about, kind, text: words.join("; ") }];
  return [
    ...finding("difference", "lower", lower),
    ...finding("difference", "higher", higher),
    ...finding("agreement", "within the margin", within),
    ...finding("neither", "neither a difference nor agreement shown", open),
    ...finding(
      "neither",
      `no verdict for ${without} of ${rows.length} comparisons`,
      without > 0 ? ["the reasons stand at the end"] : [],
    ),
  ];
}

/** `7 d (85 %)*`. */
function cellWords({ age_d, ratio_pct, sensitive_to }: ContrastRow, verdict: "difference" | "equivalence"): string {
  const ratio = ratio_pct === null ? "" : ` (${ratio_pct.toFixed(0)} %)`;
  return `${ageWords(age_d)}${ratio}${sensitive_to.some((one) => one.includes(verdict)) ? "*" : ""}`;
}
