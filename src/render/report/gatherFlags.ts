import { compareKeys } from "../../campaign/compareKeys.ts";
import type { Campaign } from "../../campaign/types.ts";
import type { Flag, Severity } from "../../flags.ts";
import { cellWords } from "./cellWords.ts";

/** Where a flag was raised. */
export interface FlagPlace {
  /** File or cell; null: the whole campaign. */
  where: string | null;
  /** Windows it concerns; none: the whole run. */
  windows: string[];
  sentence: string;
}

/** All flags of one code. */
export interface FlagGroup {
  code: string;
  severity: Severity;
  advice: string;
  places: FlagPlace[];
}

/**
 * All flags of a campaign by code: those of the campaign, of runs, their windows and phases, and of cells. A cell carries on what
 * its runs are flagged for; that is told once, with the run.
 */
export function gatherFlags({ flags, runs, ages, amounts, plausibility }: Campaign): FlagGroup[] {
  const groups = new Map<string, FlagGroup>();
  const add = (where: string | null, { code, severity, advice, sentence, window }: Flag): void => {
    const group = groups.get(code) ?? { code, severity, advice, places: [] };
    groups.set(code, group);
    const known = group.places.find((place) => place.where === where && place.sentence === sentence);
    if (known === undefined) group.places.push({ where, windows: window === undefined ? [] : [window], sentence });
    else if (window !== undefined && !known.windows.includes(window)) known.windows.push(window);
  };
  for (const flag of flags) add(null, flag);
  for (const run of runs) {
    if (run.status === "failed") continue;
    for (const flag of run.flags) add(run.file, flag);
    for (const { window, flags: own } of run.windows) for (const flag of own) add(run.file, { window, ...flag });
    for (const { window, flags: own } of run.phases) for (const flag of own) add(run.file, { window, ...flag });
  }
  const ofRuns = new Set(groups.keys());
  for (const row of [...ages, ...amounts]) {
    for (const flag of row.flags) if (!ofRuns.has(flag.code)) add(cellWords(row), { window: row.window, ...flag });
  }
  for (const row of plausibility) for (const flag of row.flags) add(cellWords(row), flag);
  return [...groups.values()].sort((a, b) => compareKeys([a.code], [b.code]));
}
