import { ageWords } from "../../campaign/ageWords.ts";
import type { Campaign } from "../../campaign/types.ts";
import { howToRead } from "../howToRead.ts";
import { contrastTables } from "./contrastTables.ts";
import { growthTables } from "./growthTables.ts";
import { html } from "./html.ts";
import { label } from "./label.ts";
import { noBreak } from "./noBreak.ts";
import { planningTable } from "./planningTable.ts";
import { propertyTables } from "./propertyTables.ts";
import type { Section } from "./section.ts";
import { sufficientTables } from "./sufficientTables.ts";
import { togetherTables } from "./togetherTables.ts";

/** The decisions in full; null where nothing was compared. */
export function comparisonsSection({ decisions }: Campaign): Section | null {
  if (decisions === undefined) return null;
  const [, ...lines] = howToRead(decisions);
  const { reference, reference_age_d } = decisions.asked;
  const ages = reference_age_d === null ? "" : `, and every regime with itself at ${ageWords(reference_age_d)}`;
  return {
    id: "comparisons",
    heading: "Comparisons in full",
    wide: true,
    content: html`<p>Compared with ${label(reference)} at the same mix and age${noBreak(ages)}.</p>
<ul>
${lines.map((line) => html`<li>${noBreak(line)}</li>\n`)}</ul>
${contrastTables(decisions)}${sufficientTables(decisions)}${growthTables(decisions)}${propertyTables(decisions)}${togetherTables(decisions)}${planningTable(decisions)}`,
  };
}
