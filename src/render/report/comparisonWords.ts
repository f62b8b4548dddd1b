import { ageWords } from "../../campaign/ageWords.ts";
import type { Decisions, Margin, Requirement } from "../../campaign/decisions.ts";
import { listWords } from "../../compare/words.ts";

/** How cells were compared, in words for a paper: what was asked, and the tests that were used. */
export function comparisonWords({ asked, families, growth, together, sufficient }: Decisions): string {
  const { reference, reference_age_d, test_age_d, scatter, family, margins, requirements } = asked;
  const used = [...new Set(families.map(({ adjustment }) => adjustment))];
  const by = used.map((one) => (one === "holm" ? "Holm's procedure (Holm 1979)" : "Dunnett's test (Dunnett 1955)"));
  const judged =
    family === "campaign" ? "over all comparisons of the campaign" : "over the comparisons of one quantity and mix";
  const deviation = scatter === "welch" ? "of the two cells alone (Welch)" : "pooled over all cells";
  const ages =
    reference_age_d === null ? "" : `, and each regime at every age with itself at ${ageWords(reference_age_d)}`;
  const sentences = [
    `Every regime was compared with ${reference} at the same mix and age${ages}, by two-sided t tests with the scatter of specimens ${deviation}; errors that both cells share count only by how differently they act on the two. A difference is called shown where its p, adjusted by ${by.length === 0 ? "the procedure asked for" : listWords(by)} ${judged}, is at most 5 %.`,
  ];
  sentences.push(
    margins.length === 0
      ? "Agreement within a margin was not judged, since no margin was stated."
      : `Agreement within a margin of ${listWords(margins.map(marginText))} was judged apart from that, by two one-sided tests of 5 % each for every comparison alone (Schuirmann 1987).`,
  );
  if (growth.length > 0) {
    sentences.push("Growth was judged by tests of order on the specimens (Jonckheere 1954), each by itself at 5 %.");
  }
  if (together.length > 0) {
    sentences.push("Correlations of properties and indices over cells were judged by permutation.");
  }
  if (sufficient.some(({ margin, requirement }) => margin ?? requirement)) {
    const at = test_age_d === null ? "" : ` at ${ageWords(test_age_d)}`;
    const must = requirements.length === 0 ? "" : `, and against ${listWords(requirements.map(requirementText))}`;
    sentences.push(
      `The shortest sufficient curing${at} was looked for from the longest duration down, each step one-sided at 5 %, up to the first duration not shown to hold (Maurer et al. 1995)${must}.`,
    );
  }
  return sentences.join(" ");
}

/** `10 % of the reference`, `2 MPa for strength`. */
function marginText({ quantity, kind, size, unit }: Margin): string {
  const what =
    kind === "share" ? `${Number((100 * size).toPrecision(9))} % of the reference` : `${size} ${unit ?? ""}`.trim();
  return quantity === null ? what : `${what} for ${quantity}`;
}

/** `strength of at least 24 MPa`. */
function requirementText({ quantity, at, value, unit }: Requirement): string {
  return `${quantity} of at ${at} ${value} ${unit}`.trim();
}
