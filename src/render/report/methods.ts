import type { Campaign } from "../../campaign/types.ts";
import { listWords } from "../../compare/words.ts";
import type { RunDone } from "../../protocol/types.ts";
import { analysisWords } from "./analysisWords.ts";
import { comparisonWords } from "./comparisonWords.ts";
import { correctionWords } from "./correctionWords.ts";
import { counted } from "./counted.ts";
import { uncertaintyWords } from "./uncertaintyWords.ts";
import { windowWords } from "./windowWords.ts";

/** How the numbers were made, in words that can go into a paper. */
export interface Methods {
  paragraphs: string[];
  references: string[];
}

const references = {
  smoothing: "A. Savitzky, M. J. E. Golay, Anal. Chem. 36:1627 (1964).",
  budget: "JCGM 100:2008, Evaluation of measurement data: Guide to the expression of uncertainty in measurement.",
  holm: "S. Holm, Scand. J. Stat. 6:65–70 (1979).",
  dunnett: "C. W. Dunnett, J. Am. Stat. Assoc. 50:1096–1121 (1955).",
  equivalence: "D. J. Schuirmann, J. Pharmacokinet. Biopharm. 15:657–680 (1987).",
  jonckheere: "A. R. Jonckheere, Biometrika 41:133–145 (1954).",
  sequence:
    "W. Maurer, L. A. Hothorn, W. Lehmacher, in: Biometrie in der chemisch-pharmazeutischen Industrie 6 (1995).",
};

/**
 * The methods paragraph: every number in it is one of the settled protocol, of what was asked of the comparison, or of the runs.
 * Named are the methods that were used, and no others.
 */
export function methods(campaign: Campaign): Methods {
  const { protocol, decisions } = campaign;
  const paragraphs = [
    measured(campaign),
    analysisWords(protocol),
    windowWords(protocol),
    correctionWords(protocol),
    uncertaintyWords(protocol),
    decisions === undefined ? "" : comparisonWords(decisions),
  ].filter((text) => text !== "");
  const named: (keyof typeof references)[] = ["smoothing", "budget"];
  if (decisions !== undefined) {
    const used = new Set(decisions.families.map(({ adjustment }) => adjustment));
    if (used.has("holm")) named.push("holm");
    if (used.has("dunnett")) named.push("dunnett");
    if (decisions.asked.margins.length > 0) named.push("equivalence");
    if (decisions.growth.length > 0) named.push("jonckheere");
    if (decisions.sufficient.some(({ margin, requirement }) => margin ?? requirement)) named.push("sequence");
  }
  return { paragraphs, references: named.map((key) => references[key]) };
}

/** What was run, as far as the runs and the run sheet tell. */
function measured({ runs, protocol, version }: Campaign): string {
  const done = runs.filter((run): run is RunDone => run.status !== "failed");
  const rates = done.flatMap(({ heating_rate_K_per_min: rate }) => rate ?? []);
  const masses = done.flatMap(({ initial_mass_mg: mass }) => mass ?? []);
  const gases = unique(done.map(({ gas }) => gas));
  const crucibles = unique(done.map(({ crucible }) => crucible));
  const facts = [
    rates.length > 0 ? `heated at ${range(rates, 1)} K/min` : "",
    gases.length > 0 ? `in ${listWords(gases)}` : "",
    crucibles.length > 0 ? `in crucibles of ${listWords(crucibles)}` : "",
    masses.length > 0 ? `with initial masses of ${range(masses, 1)} mg` : "",
  ].filter((text) => text !== "");
  const which = facts.length === 0 ? "" : ` They were ${facts.join(", ")}, as far as files and run sheet state it.`;
  const by = protocol.settled.by === "" ? "" : `, settled by ${protocol.settled.by}`;
  return `${done.length} of ${counted(runs.length, "thermogravimetric run")} could be evaluated, with tg-hydrates ${version} under the protocol ${protocol.name}${by}.${which}`;
}

function unique(names: readonly (string | null)[]): string[] {
  return [...new Set(names.filter((name) => name !== null && name !== ""))].sort() as string[];
}

/** `10.0`, `9.8–10.2`. */
function range(values: readonly number[], decimals: number): string {
  const low = values.reduce((a, b) => Math.min(a, b)).toFixed(decimals);
  const high = values.reduce((a, b) => Math.max(a, b)).toFixed(decimals);
  return low === high ? low : `${low}–${high}`;
}
