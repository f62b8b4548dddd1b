import { ageText } from "../campaign/ageText.ts";
import { someNames } from "../campaign/someNames.ts";
import type { AgeRow, Campaign } from "../campaign/types.ts";
import { valueOrNull } from "../measured.ts";
import { flagCodes } from "./flagCodes.ts";
import { terminalSafe } from "./terminalSafe.ts";
import { textWidth } from "./textWidth.ts";

const references: Record<AgeRow["basis"], string> = {
  ignited: "ignited mass",
  initial: "initial mass",
  binder: "anhydrous binder",
};

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
  const [firstRow] = campaign.ages;
  if (firstRow === undefined) return "No run has the role specimen: there is no per-age table.\n";
  const windows = windowsOf(campaign.ages);
  const blocks = blocksOf(campaign.ages, windows);
  const widths = windows.map((_, i) => partWidths(blocks.flatMap(({ lines }) => lines.map(({ cells }) => cells[i]!))));
  const ageWidth = Math.max(...blocks.flatMap(({ lines }) => lines.map(({ age }) => age.length)), "age".length);
  const line = (age: string, cells: readonly string[]): string =>
    [age.padStart(ageWidth), ...cells].join("   ").trimEnd();
  const wide = windows.map(({ window }, i) =>
    Math.max(
      widths[i]!.reduce((a, b) => a + b + 1),
      textWidth(safe(window)),
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
    line("", heading(windows.map(({ window }) => safe(window)))),
    line("age", heading(windows.map(({ rule }) => rule))),
    ...table,
    "",
    ...legend(campaign, firstRow),
    "",
  ].join("\n");
}

/** Labels come from strangers. */
const safe = terminalSafe;

interface Block {
  title: string;
  lines: { age: string; cells: Parts[] }[];
}

/** Mean, half interval, number of specimens with its mark: each is aligned by itself, so that the decimal points line up. */
type Parts = [string, string, string];

/** Windows in the order in which the rows first name them. */
function windowsOf(ages: readonly AgeRow[]): Pick<AgeRow, "window" | "rule">[] {
  return [...new Map(ages.map(({ window, rule }) => [window, { window, rule }])).values()];
}

function titleOf({ mix, curing, curing_d }: AgeRow): string {
  const days = curing_d === null ? "" : ` for ${Number(curing_d.toPrecision(6))} d`;
  const regime = curing === null ? (days === "" ? "" : `cured${days}`) : `${terminalSafe(curing)}${days}`;
  return [mix === null ? "" : terminalSafe(mix), regime].filter(Boolean).join(", ") || "all";
}

function blocksOf(ages: readonly AgeRow[], windows: readonly Pick<AgeRow, "window">[]): Block[] {
  const blocks = new Map<string, { title: string; ages: Map<number | null, Map<string, AgeRow>> }>();
  for (const row of ages) {
    const key = JSON.stringify([row.mix, row.curing, row.curing_d]);
    const block = blocks.get(key) ?? { title: titleOf(row), ages: new Map() };
    blocks.set(key, block);
    const line = block.ages.get(row.age_d) ?? new Map<string, AgeRow>();
    block.ages.set(row.age_d, line.set(row.window, row));
  }
  return [...blocks.values()].map((block) => ({
    title: block.title,
    lines: [...block.ages].map(([age, line]) => ({
      age: age === null ? "unknown" : ageText(Math.round(age * 1440)).replace(/(?<=\d)(?=[a-z])/, " "),
      cells: windows.map(({ window }) => partsOf(line.get(window))),
    })),
  }));
}

function partsOf(row: AgeRow | undefined): Parts {
  if (row === undefined) return ["", "", ""];
  const value = valueOrNull(row.index);
  const half = value === null || row.index_hi95 === null ? null : row.index_hi95 - value;
  // Notes are good to know and stand in the CSV: a mark for each would hide the others.
  const marked = row.flags.some(({ severity }) => severity !== "note");
  const count = `(${row.n_specimens})${marked ? "*" : ""}`;
  return [
    value === null ? "—" : value.toFixed(2).replace(/^-(?=0\.00$)/, ""),
    half === null ? "" : `± ${half.toFixed(2)}`,
    count,
  ];
}

function partWidths(cells: readonly Parts[]): [number, number, number] {
  const widest = (part: 0 | 1 | 2): number => Math.max(...cells.map((cell) => cell[part].length));
  return [widest(0), widest(1), widest(2)];
}

function joinParts([mean, half, count]: Parts, widths: readonly [number, number, number]): string {
  return `${mean.padStart(widths[0])} ${half.padStart(widths[1])} ${count.padEnd(widths[2])}`;
}

function legend(campaign: Campaign, { basis }: AgeRow): string[] {
  const flagged = new Map<string, number>();
  for (const { flags, index } of campaign.ages) {
    for (const code of flagCodes(flags, [index])?.split(";") ?? []) flagged.set(code, (flagged.get(code) ?? 0) + 1);
  }
  const counts = [...flagged].map(([code, count]) => `${safe(code)} (${count})`);
  return [
    `Mass lost per window in g per 100 g of ${references[basis]}: mean ± half of the 95 % interval (number of specimens).`,
    "Without ±: no cell has two specimens, so that their scatter is not known. —: missing. *: flagged, see the column flags of ages.csv.",
    ...(counts.length > 0 ? [`Flags (number of values): ${someNames(counts, { most: 12 })}.`] : []),
    ...campaign.flags.map(({ sentence }) => safe(sentence)),
  ];
}
