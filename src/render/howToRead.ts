import { ageWords } from "../campaign/ageWords.ts";
import type { Decisions } from "../campaign/decisions.ts";

/** What the verdicts of a comparison mean, and at which risk; the first line is the heading. */
export function howToRead({ asked, families }: Decisions): string[] {
  const { reference, reference_age_d, adjustment, scatter, family } = asked;
  const by = adjustment === "holm" ? "Holm's adjustment" : "Dunnett's test";
  const together =
    family === "campaign"
      ? "all comparisons of the campaign"
      : "all comparisons of one quantity and mix with the reference";
  const used = new Set(families.map((one) => one.adjustment));
  const mixed = adjustment === "dunnett" && used.has("holm") ? " (Holm's where scatter is not common to all)" : "";
  const ages = reference_age_d === null ? "" : `, and every regime with itself at ${ageWords(reference_age_d)}`;
  const deviation =
    scatter === "welch"
      ? "The scatter of specimens is that of the two cells compared (Welch)."
      : "The scatter of specimens is pooled over all cells.";
  return [
    `CURING COMPARED WITH ${reference} (same mix, same age${ages})`,
    `lower, higher: a difference is shown; the risk of even one false claim among ${together} is at most 5 % (${by}${mixed}).`,
    "not shown: these data cannot tell. It does not mean that the values are the same.",
    "within margin: shown to differ by less than the stated margin; outside margin: shown to differ by more (one comparison at a time, 5 %).",
    `Intervals are 95 % intervals of one comparison alone. ${deviation}`,
  ];
}
