import { ageWords } from "../campaign/ageWords.ts";
import type { AgeRow } from "../campaign/types.ts";
import { valueOrNull } from "../measured.ts";
import { terminalSafe } from "./terminalSafe.ts";

/** Mean, half interval, number of specimens with its mark: each is aligned by itself, so that the decimal points line up. */
export type AgeParts = [string, string, string];

/** The ages of one mix and curing: one line per age, one cell per window. Labels are made safe for a terminal. */
export interface AgesBlock {
  title: string;
  lines: { age: string; cells: AgeParts[] }[];
}

/** The per-age table before it is set as text or HTML. */
export interface AgesBlocks {
  /** In the order in which the rows first name them. */
  windows: Pick<AgeRow, "window" | "rule">[];
  blocks: AgesBlock[];
}

/** Rows of ages.csv → one block per mix and curing, one line per age, one cell per window. */
export function agesBlocks(ages: readonly AgeRow[]): AgesBlocks {
  const windows = windowsOf(ages);
  return { windows, blocks: blocksOf(ages, windows) };
}

function windowsOf(ages: readonly AgeRow[]): Pick<AgeRow, "window" | "rule">[] {
  return [...new Map(ages.map(({ window, rule }) => [window, { window, rule }])).values()];
}

function titleOf({ mix, curing, curing_d }: AgeRow): string {
  const days = curing_d === null ? "" : ` for ${Number(curing_d.toPrecision(6))} d`;
  const regime = curing === null ? (days === "" ? "" : `cured${days}`) : `${terminalSafe(curing)}${days}`;
  return [mix === null ? "" : terminalSafe(mix), regime].filter(Boolean).join(", ") || "all";
}

function blocksOf(ages: readonly AgeRow[], windows: readonly Pick<AgeRow, "window">[]): AgesBlock[] {
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
      age: age === null ? "unknown" : ageWords(age),
      cells: windows.map(({ window }) => partsOf(line.get(window))),
    })),
  }));
}

function partsOf(row: AgeRow | undefined): AgeParts {
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
