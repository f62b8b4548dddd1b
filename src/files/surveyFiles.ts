import { resolve } from "node:path";
import { addShape, type MeanShape, meanShape, type ShapeSums, shapeOf } from "../curve/meanShape.ts";
import { subtractBlank } from "../curve/subtractBlank.ts";
import { toCurve } from "../curve/toCurve.ts";
import { UnreadableError } from "../errors.ts";
import type { Job, Protocol } from "../protocol/types.ts";
import { readRun } from "../read/readRun.ts";
import { FileError } from "./fileError.ts";
import { readBlank } from "./readBlank.ts";
import { readBytes } from "./readBytes.ts";

/**
 * First pass over the specimens of a folder, for protocols that place edges by the campaign: the mean DTG of all runs,
 * every regime (mix, curing, days of curing) weighted equally. Sums are kept, not curves. Runs that cannot be read are
 * left out here; the second pass reports them.
 *
 * @throws The reason of the signal, soon after it is aborted.
 */
export async function surveyFiles(
  jobs: readonly Job[],
  options: {
    folder: string;
    protocol: Protocol;
    onProgress?: (done: number, total: number) => void;
    signal?: AbortSignal;
  },
): Promise<MeanShape | null> {
  const { folder, protocol, onProgress, signal } = options;
  const columnsOf = new Map(jobs.map((job) => [job.file, job.columns]));
  const specimens = jobs.filter(({ role }) => role === "specimen");
  const sums: ShapeSums = { regimes: new Map() };
  for (const [done, job] of specimens.entries()) {
    signal?.throwIfAborted();
    const { file, mix, curing, curing_d, columns, blank, initial_mass_mg } = job;
    try {
      const known = initial_mass_mg === null ? {} : { initialMass_mg: initial_mass_mg };
      const run = readRun(readBytes(resolve(folder, file), { name: file }), { name: file, columns, ...known });
      const empty = blank === null ? null : readBlank(blank, { folder, columns: columnsOf.get(blank) ?? [] });
      const corrected = empty === null ? run : subtractBlank(run, empty, protocol);
      addShape(sums, JSON.stringify([mix, curing, curing_d]), shapeOf(toCurve(corrected, protocol)));
    } catch (error) {
      if (!(error instanceof UnreadableError || error instanceof FileError)) throw error;
    }
    onProgress?.(done + 1, specimens.length);
    await new Promise<void>((turn) => setImmediate(turn));
  }
  return meanShape(sums);
}
