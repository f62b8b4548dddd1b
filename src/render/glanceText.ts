import type { Decisions } from "../campaign/decisions.ts";
import { regimeWords } from "../compare/words.ts";
import { glance } from "./glance.ts";

/** What is shown for each regime, in one sentence per kind of finding. */
export function glanceText(decisions: Decisions): string[] {
  const regimes = glance(decisions);
  if (regimes.length === 0) return [];
  const lines = regimes.flatMap(({ findings, ...regime }) => [
    `${regime.mix ?? "-"}, ${regimeWords(regime)}`,
    ...findings.map(({ kind, text }) => `  ${kind}: ${text}.`),
  ]);
  const marked = lines.some((line) => line.includes("*"));
  const note =
    "*: no longer so when an edge of the window moves by 5 °C, or another rule counts the loss: read it with care.";
  return ["WHAT IS SHOWN (in brackets: share of the reference)", ...lines, ...(marked ? [note] : [])];
}
