import { ageWords } from "../campaign/ageWords.ts";
import { compareKeys } from "../campaign/compareKeys.ts";
import { someNames } from "../campaign/someNames.ts";
import type { Problem } from "../campaign/types.ts";
import { nearestName } from "../nearestName.ts";
import type { CellKey } from "../protocol/types.ts";
import { cellKey } from "./cellKey.ts";
import type { PropertyRow } from "./types.ts";
import { regimeWords } from "./words.ts";

/** Names compared with one another when looking for similar ones: more would take seconds. */
const MOST_COMPARISONS = 100_000;

/**
 * Holds properties against the runs they belong to: a mix or a curing that is nearly that of a run is a problem. Cells without a run
 * are none: strength is often tested more often than a thermobalance is run.
 *
 * @param cells Of the runs.
 * @param source The table, for messages.
 */
export function checkProperties(
  rows: readonly PropertyRow[],
  cells: readonly CellKey[],
  source: string,
): { problems: Problem[]; remarks: Problem[] } {
  const problems: Problem[] = [];
  for (const column of ["mix", "curing"] as const) {
    const names = new Set(cells.flatMap((cell) => cell[column] ?? []));
    const known = [...names];
    const byBare = new Map(known.map((name) => [bare(name), name]).reverse() as [string, string][]);
    const seen = new Set<string>();
    for (const row of rows) {
      const name = row[column];
      if (name === null || names.has(name) || seen.has(name)) continue;
      seen.add(name);
      // Capitals, blanks and one letter: the same name, misspelt. Numbered names (M1, M2) differ by one letter on purpose.
      const compared = seen.size * known.length <= MOST_COMPARISONS && !/\d/.test(name);
      const meant = byBare.get(bare(name)) ?? (compared ? nearestName(name, known, { atMost: 1 }) : null);
      if (meant === null) continue;
      const message = `no run has the ${column} ${JSON.stringify(name)}: did you mean ${JSON.stringify(meant)}? Write both alike`;
      problems.push({ source, line: row.line, column, message });
    }
  }
  const measured = new Set(cells.map((cell) => JSON.stringify(cellKey(cell))));
  const alone = new Map<string, CellKey>();
  for (const { mix, curing, curing_d, age_min } of rows) {
    const cell = { mix, curing, curing_d, age_d: age_min === null ? null : age_min / 1440 };
    const key = JSON.stringify(cellKey(cell));
    if (!measured.has(key)) alone.set(key, cell);
  }
  if (alone.size === 0) return { problems, remarks: [] };
  // However the rows are ordered, the same cells are named.
  const names = [...alone.values()]
    .sort((a, b) => compareKeys(cellKey(a), cellKey(b)))
    .map((cell) => `${cell.mix ?? "-"} ${regimeWords(cell)} at ${ageWords(cell.age_d)}`);
  const one = alone.size === 1;
  const message = `${alone.size} ${one ? "cell has" : "cells have"} properties and no run: ${someNames(names)}. ${one ? "It is" : "They are"} compared among the properties and left out where hydrates and properties are held together.`;
  return { problems, remarks: [{ source, message }] };
}

function bare(text: string): string {
  return text.toLowerCase().replaceAll(/[\s_-]/g, "");
}
