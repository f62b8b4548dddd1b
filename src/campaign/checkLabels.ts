import { nearestName } from "../nearestName.ts";
import type { Mix } from "../phases/types.ts";
import type { Job } from "../protocol/types.ts";
import type { Problem } from "./types.ts";

/** Names compared with one another when looking for similar ones: more would take seconds. */
const MOST_COMPARISONS = 100_000;

/**
 * Names of mixes and curing regimes: each is written in one way, and a mix stands in the mix table where there is one.
 *
 * @param names Sheet and mix table, for messages.
 */
export function checkLabels(
  jobs: readonly Job[],
  mixes: readonly Mix[] | null,
  names: { sheet: string; mixes: string },
): Problem[] {
  return [...(mixes === null ? [] : checkMixNames(jobs, mixes, names)), ...checkSpellings(jobs, names.sheet)];
}

function checkMixNames(
  jobs: readonly Job[],
  mixes: readonly Mix[],
  names: { sheet: string; mixes: string },
): Problem[] {
  const known = mixes.map(({ mix }) => mix);
  const set = new Set(known);
  const compared = new Map<string, string | null>();
  const nearestOf = (mix: string): string | null => {
    const before = compared.get(mix);
    if (before !== undefined) return before;
    const nearest = compared.size * known.length > MOST_COMPARISONS ? null : nearestName(mix, known);
    compared.set(mix, nearest);
    return nearest;
  };
  return jobs.flatMap(({ mix, line }) => {
    if (mix === null || set.has(mix)) return [];
    const nearest = nearestOf(mix);
    const help = nearest === null ? "add a row for it" : `did you mean ${JSON.stringify(nearest)}?`;
    const message = `the mix ${JSON.stringify(mix)} is not in ${names.mixes}: ${help}`;
    return [{ source: names.sheet, line, column: "mix", message }];
  });
}

/** Names that differ in capitals only would be kept apart in silence. */
function checkSpellings(jobs: readonly Job[], source: string): Problem[] {
  const problems: Problem[] = [];
  for (const column of ["mix", "curing"] as const) {
    const first = new Map<string, { name: string; line: number }>();
    const reported = new Set<string>();
    for (const job of jobs) {
      const name = job[column];
      if (name === null) continue;
      const before = first.get(name.toLowerCase());
      if (before === undefined) first.set(name.toLowerCase(), { name, line: job.line });
      else if (before.name !== name && !reported.has(name)) {
        reported.add(name);
        const message = `${JSON.stringify(name)} and ${JSON.stringify(before.name)} (line ${before.line}) differ in capitals only: write both alike`;
        problems.push({ source, line: job.line, column, message });
      }
    }
  }
  return problems;
}
