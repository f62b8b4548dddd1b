import type { Decisions } from "../campaign/decisions.ts";
import { ageWords } from "../compare/words.ts";
import { contrastsText } from "./contrastsText.ts";
import { glanceText } from "./glanceText.ts";
import { growthText } from "./growthText.ts";
import { lengthText } from "./lengthText.ts";
import { planningText } from "./planningText.ts";
import { sufficientText } from "./sufficientText.ts";
import { terminalSafe } from "./terminalSafe.ts";
import { togetherText } from "./togetherText.ts";

/**
 * The decisions as a summary for a terminal: what was asked, what is shown and what is not, in sentences and tables. Labels are made
 * safe for a terminal.
 *
 * @returns Lines ending in `\n`.
 *
 * @example
 * ```ts
 * import { exampleCampaign, indexBytes, parseSheet, protocols, settle, summarise, compare, decisionsText } from "tg-hydrates";
 * const protocol = settle(protocols.csa);
 * const { files } = exampleCampaign(7, { size: "small", rows: 300 });
 * const text = (name: string) => new TextDecoder().decode(files.find((file) => file.name === name)!.bytes);
 * const { rows } = parseSheet(text("sheet.csv"), { name: "sheet.csv" });
 * const runs = rows.map((job) => indexBytes(files.find(({ name }) => name === job.file)!.bytes, job, { protocol }));
 * const campaign = summarise(runs, { protocol });
 * const summary = decisionsText(compare(campaign, { reference: "sealed" }));
 * if (!summary.includes("sealed")) throw new Error("the reference is named");
 * ```
 */
export function decisionsText(decisions: Decisions): string {
  const sections = [
    howToRead(decisions),
    glanceText(decisions),
    contrastsText(decisions),
    growthText(decisions),
    lengthText(decisions),
    togetherText(decisions),
    sufficientText(decisions),
    planningText(decisions),
    decisions.remarks.length === 0 ? [] : ["WHAT COULD NOT BE JUDGED", ...decisions.remarks],
  ];
  return sections
    .filter((lines) => lines.length > 0)
    .map((lines) => lines.map((line) => `${terminalSafe(line)}\n`).join(""))
    .join("\n");
}

function howToRead({ asked, families }: Decisions): string[] {
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
