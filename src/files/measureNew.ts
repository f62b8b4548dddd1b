import type { FileJob, MeasuredFile } from "./measureFile.ts";
import { type MeasureOptions, measureFiles } from "./measureFiles.ts";

/** What was measured before, for a folder that is looked at again and again. */
export interface Remembered {
  /** Changes whenever the file does; null where it is not known. */
  stampOf: (file: string) => string | null;
  /** By everything that the result depends on. */
  results: Map<string, MeasuredFile>;
}

/**
 * {@link measureFiles}, for those only that are not remembered; these are remembered then, and what belongs to no job is forgotten.
 *
 * @returns In the order of the jobs.
 */
export async function measureNew(
  jobs: readonly FileJob[],
  options: MeasureOptions & { remembered?: Remembered },
): Promise<MeasuredFile[]> {
  const { remembered, ...rest } = options;
  if (!remembered) return measureFiles(jobs, rest);
  const { stampOf, results } = remembered;
  const keys = jobs.map((one) => {
    const stamps = [one.job.file, one.job.blank].map((file) => (file === null ? "" : stampOf(file)));
    return stamps.includes(null) ? null : JSON.stringify([one, stamps, options.protocol]);
  });
  const isNew = (i: number): boolean => keys[i] === null || !results.has(keys[i]!);
  const fresh = await measureFiles(
    jobs.filter((_, i) => isNew(i)),
    rest,
  );
  let next = 0;
  const measured = jobs.map((_, i) => (isNew(i) ? fresh[next++]! : results.get(keys[i]!)!));
  results.clear();
  for (const [i, key] of keys.entries()) if (key !== null) results.set(key, measured[i]!);
  return measured;
}
