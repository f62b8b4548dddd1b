import type { Job, RunHead } from "./types.ts";

/** What every table says about a run before its numbers. */
export function runHead(job: Job, sha256: string | null): RunHead {
  const { file, mix, curing, curing_d, age_min, specimen, replicate, role, session } = job;
  const age_d = age_min === null ? null : age_min / 1440;
  return { file, sha256, mix, curing, curing_d, age_d, specimen, replicate, role, session };
}
