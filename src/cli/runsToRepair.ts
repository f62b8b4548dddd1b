import { someNames } from "../campaign/someNames.ts";
import type { Campaign } from "../campaign/types.ts";
import type { RunDone, RunFailed } from "../protocol/types.ts";

/**
 * The runs that failed or are incomplete: how many, and a line for each reason with the file, what is wrong and what to do. An
 * empty crucible has no indices: a blank run counts only where it cannot be read.
 */
export function runsToRepair(campaign: Campaign): { count: number; lines: string[] } {
  const failed = campaign.runs.filter((run): run is RunFailed => run.status === "failed");
  const incomplete = campaign.runs.filter((run): run is RunDone => run.status === "incomplete" && run.role !== "blank");
  const count = failed.length + incomplete.length;
  const lines = [
    // An error may be that of the blank run, which only names itself.
    ...failed.map(({ file, error: { message } }) => (message.startsWith(file) ? message : `${file}: ${message}`)),
    ...incomplete.flatMap((run) => reasonsOf(run).map((reason) => `${run.file}: incomplete: ${reason}`)),
  ];
  if (count > 0) lines.push(summary(campaign.runs.length, failed.length, incomplete.length));
  return { count, lines: [...lines, ...cautions(campaign)] };
}

function summary(all: number, failed: number, incomplete: number): string {
  const counts = [...(failed > 0 ? [`${failed} failed`] : []), ...(incomplete > 0 ? [`${incomplete} incomplete`] : [])];
  return `Of ${all} ${all === 1 ? "run" : "runs"} ${counts.join(", ")}; the others are complete.`;
}

/** Every serious flag once, with what to do. */
function reasonsOf(run: RunDone): string[] {
  const flags = [...run.flags, ...run.windows.flatMap((window) => window.flags)];
  const serious = flags.filter(({ severity }) => severity === "serious");
  const reasons = new Set(serious.map(({ sentence, advice }) => `${sentence} ${advice}`));
  if (reasons.size > 0) return [...reasons];
  const missing = run.windows.flatMap(({ window, index }) =>
    "missing" in index ? `${window} (${index.missing})` : [],
  );
  return [`No index for ${missing.join(", ")}.`];
}

/** What to know about whole runs, one line per code; the findings about single windows stand in the tables. */
function cautions({ runs }: Campaign): string[] {
  const byCode = new Map<string, Set<string>>();
  for (const run of runs) {
    if (run.status === "failed" || run.role === "blank") continue;
    for (const { code, severity } of run.flags) {
      if (severity !== "caution") continue;
      byCode.set(code, (byCode.get(code) ?? new Set()).add(run.file));
    }
  }
  return [...byCode].sort().map(([code, files]) => {
    const all = [...files].sort();
    return `Flag ${code} in ${all.length} ${all.length === 1 ? "run" : "runs"}: ${someNames(all)}`;
  });
}
