import type { Job } from "./types.ts";

/**
 * A job for a file of which nothing but the name is known; `known` fills in the rest.
 *
 * @example
 * ```ts
 * import { newJob } from "tg-hydrates";
 * const job = newJob("a.txt", { mix: "M1", age_min: 1440 });
 * if (job.specimen !== "a.txt" || job.role !== "specimen") throw new Error("a specimen of its own");
 * ```
 */
export function newJob(file: string, known: Partial<Job> = {}): Job {
  return {
    file,
    mix: null,
    curing: null,
    curing_d: null,
    age_min: null,
    specimen: file,
    replicate: null,
    role: "specimen",
    blank: null,
    session: null,
    balance: null,
    initial_mass_mg: null,
    residue_mg: null,
    gas: null,
    crucible: null,
    note: null,
    columns: [],
    line: 0,
    ...known,
  };
}
