import type { Job } from "../protocol/types.ts";
import type { Problem } from "./types.ts";

/** Specimens called by a bare number or one letter are counted within their cell: specimen 1 of every age is another one. */
const countedWithinCell = /^(?:\d{1,3}|[a-z])$/i;

/**
 * A specimen is one piece of material: it belongs to one cell, and each of its replicates is there once.
 *
 * @param jobs Rows without problems of their own.
 */
export function checkSpecimens(jobs: readonly Job[], source: string): { problems: Problem[]; remarks: Problem[] } {
  const problems: Problem[] = [];
  const firstOf = new Map<string, Job>();
  const replicateLine = new Map<string, number>();
  for (const job of jobs) {
    if (job.role !== "specimen" || job.specimen === job.file) continue;
    const { specimen, replicate, line } = job;
    const shown = JSON.stringify(specimen);
    const cell = JSON.stringify([job.mix, job.curing, job.curing_d, job.age_min]);
    const before = firstOf.get(specimen);
    if (before === undefined) firstOf.set(specimen, job);
    else if (!countedWithinCell.test(specimen)) {
      const differing = (["mix", "curing", "curing_d", "age_min"] as const).filter((key) => before[key] !== job[key]);
      if (differing.length > 0) {
        const what = differing.map((key) => (key === "age_min" ? "age" : key)).join(", ");
        const message = `the specimen ${shown} has another ${what} in line ${before.line}: give each specimen its own name, or number the specimens of each cell 1, 2, 3`;
        problems.push({ source, line, column: "specimen", message });
      }
    }
    if (replicate === null) continue;
    const key = JSON.stringify([cell, specimen, replicate]);
    const other = replicateLine.get(key);
    if (other === undefined) replicateLine.set(key, line);
    else {
      const message = `replicate ${JSON.stringify(replicate)} of the specimen ${shown} stands in line ${other} already: number the replicates differently`;
      problems.push({ source, line, column: "replicate", message });
    }
  }
  const alone = jobs.filter((job) => job.role === "specimen" && job.replicate !== null && job.specimen === job.file);
  const remarks: Problem[] = [];
  if (alone.length > 0) {
    const message = `${alone.length} row${alone.length === 1 ? " has" : "s have"} a replicate but no specimen: each counts as a specimen of its own. Where replicates are aliquots of one specimen give them its name, or the uncertainty comes out too small`;
    remarks.push({ source, line: alone[0]!.line, column: "specimen", message });
  }
  return { problems, remarks };
}
