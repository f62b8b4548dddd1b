import type { Campaign } from "../campaign/types.ts";
import { type AgeParts, agesBlocks } from "./agesBlocks.ts";
import { agesLegend } from "./agesLegend.ts";
import { terminalSafe } from "./terminalSafe.ts";
import { textWidth } from "./textWidth.ts";

/**
 * The per-age table as aligned plain text for a terminal: one block per mix and curing, one line per age, one column per window
 * with mean, half of the 95 % interval and number of specimens. Labels are made safe for a terminal.
 *
 * @returns Lines ending in `\n`; a sentence where no run is a specimen.
 *
 * @example
 * ```ts
 * import { agesTable, indexBytes, newJob, protocols, settle, summarise } from "tg-hydrates";
 * const protocol = settle(protocols.csa);
 * const rows = ["T/°C\tm/mg"];
 * for (let T = 30; T <= 960; T += 0.5) rows.push(`${T}\t${(20 - 4 / (1 + Math.exp((130 - T) / 5))).toFixed(4)}`);
 * const bytes = new TextEncoder().encode(rows.join("\n"));
 * const campaign = summarise([indexBytes(bytes, newJob("a.txt", { mix: "M1", age_min: 1440 }), { protocol })], { protocol });
 * if (!agesTable(campaign).includes("25.00")) throw new Error("25 g per 100 g in the first window");
 * ```
 */
export function agesTable(campaign: Campaign): string {
  if (campaign.ages.length === 0) return "No run has the role specimen: there is no per-age table.\n";
  const { windows, blocks } = agesBlocks(campaign.ages);
  const widths = windows.map((_, i) => partWidths(blocks.flatMap(({ lines }) => lines.map(({ cells }) => cells[i]!))));
  const ageWidth = Math.max(...blocks.flatMap(({ lines }) => lines.map(({ age }) => age.length)), "age".length);
  const line = (age: string, cells: readonly string[]): string =>
    [age.padStart(ageWidth), ...cells].join("   ").trimEnd();
  const wide = windows.map(({ window }, i) =>
    Math.max(
      widths[i]!.reduce((a, b) => a + b + 1),
      textWidth(terminalSafe(window)),
    ),
  );
  const heading = (texts: readonly string[]): string[] =>
    texts.map((text, i) => text + " ".repeat(wide[i]! - textWidth(text)));
  const table = blocks.flatMap(({ title, lines }) => [
    title,
    ...lines.map(({ age, cells }) =>
      line(
        age,
        cells.map((cell, i) => joinParts(cell, widths[i]!).padEnd(wide[i]!)),
      ),
    ),
  ]);
  return [
    line("", heading(windows.map(({ window }) => terminalSafe(window)))),
    line("age", heading(windows.map(({ rule }) => rule))),
    ...table,
    "",
    ...agesLegend(campaign),
    "",
  ].join("\n");
}

function partWidths(cells: readonly AgeParts[]): [number, number, number] {
  const widest = (part: 0 | 1 | 2): number => Math.max(...cells.map((cell) => cell[part].length));
  return [widest(0), widest(1), widest(2)];
}

function joinParts([mean, half, count]: AgeParts, widths: readonly [number, number, number]): string {
  return `${mean.padStart(widths[0])} ${half.padStart(widths[1])} ${count.padEnd(widths[2])}`;
}
