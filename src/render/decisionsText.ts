import type { Decisions } from "../campaign/decisions.ts";
import { contrastsText } from "./contrastsText.ts";
import { glanceText } from "./glanceText.ts";
import { growthText } from "./growthText.ts";
import { howToRead } from "./howToRead.ts";
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
