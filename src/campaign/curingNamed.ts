import type { Job } from "../protocol/types.ts";
import type { Problem } from "./types.ts";

/** What is said where no row names a curing and specimens share mix and age: different curings would be averaged in silence. */
export function curingNamed(jobs: readonly Job[], source: string): Problem[] {
  const specimens = jobs.filter(({ role }) => role === "specimen");
  if (specimens.some(({ curing, curing_d }) => curing !== null || curing_d !== null)) return [];
  const cells = new Set(specimens.map(({ mix, age_min }) => JSON.stringify([mix, age_min])));
  const pieces = new Set(specimens.map(({ mix, age_min, specimen }) => JSON.stringify([mix, age_min, specimen])));
  if (cells.size === pieces.size) return [];
  const message =
    "no row names a curing: specimens of one mix and age are averaged; fill the column in where they were cured in different ways";
  return [{ source, column: "curing", message }];
}
