import type { Job } from "../protocol/types.ts";
import type { Problem } from "./types.ts";

/** A blank run must have a row of its own, with the role `blank`. */
export function checkBlanks(jobs: readonly Job[], source: string): Problem[] {
  const byFile = new Map(jobs.map((job) => [job.file, job]));
  return jobs.flatMap(({ blank, role, line }) => {
    if (blank === null) return [];
    const wrong = (message: string): Problem[] => [{ source, line, column: "blank", message }];
    const shown = JSON.stringify(blank);
    if (role === "blank") return wrong(`a blank run has no blank of its own: leave the cell empty, not ${shown}`);
    const target = byFile.get(blank);
    if (!target) return wrong(`the blank run ${shown} has no row: add one with the role blank`);
    if (target.role === "blank") return [];
    return wrong(
      `${shown} (line ${target.line}) has the role ${target.role}: give it the role blank, or name another run`,
    );
  });
}
