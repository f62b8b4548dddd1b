import { newJob } from "../protocol/newJob.ts";
import type { Job } from "../protocol/types.ts";
import type { DraftRow } from "./types.ts";

/**
 * Jobs from a draft nobody has finished. A label of unknown meaning keeps its runs apart from others (under the mix, or the curing where the
 * mix is known): averaging over it could average over mixes.
 *
 * @param rows From `draftSheet`.
 */
export function draftJobs(rows: readonly DraftRow[]): Job[] {
  return rows.map(({ file, label, curing_d, age_min, replicate, role, ...row }) => {
    const mix = row.mix ?? label;
    const apart = row.mix === null || label === null ? row.curing : [row.curing, label].filter(Boolean).join(" ");
    return newJob(file, { mix, curing: apart, curing_d, age_min, specimen: row.specimen ?? file, replicate, role });
  });
}
