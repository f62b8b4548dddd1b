import { resolve } from "node:path";
import { addShape, type MeanShape, meanShape, type ShapeSums, shapeOf } from "../curve/meanShape.ts";
import { scoreWidths, type WidthScore } from "../curve/scoreWidths.ts";
import { subtractBlank } from "../curve/subtractBlank.ts";
import { toCurve } from "../curve/toCurve.ts";
import { UnreadableError } from "../errors.ts";
import { leastMass } from "../massLimits.ts";
import { smoothingWidths } from "../protocol/settleSmoothing.ts";
import type { Job, Protocol } from "../protocol/types.ts";
import { readRun } from "../read/readRun.ts";
import type { Run } from "../read/types.ts";
import { FileError } from "./fileError.ts";
import { readBlank } from "./readBlank.ts";
import { readBytes } from "./readBytes.ts";

/** Options of the surveys. */
export interface SurveyOptions {
  folder: string;
  protocol: Protocol;
  onProgress?: (done: number, total: number) => void;
  signal?: AbortSignal;
}

/**
 * First pass over the specimens of a folder, for protocols that place edges by the campaign: the mean DTG of all runs,
 * every regime (mix, curing, days of curing) weighted equally. Sums are kept, not curves.
 *
 * @throws The reason of the signal, soon after it is aborted.
 */
export async function surveyShapes(jobs: readonly Job[], options: SurveyOptions): Promise<MeanShape | null> {
  const sums: ShapeSums = { regimes: new Map() };
  await survey(jobs, options, (run, { mix, curing, curing_d }) => {
    addShape(sums, JSON.stringify([mix, curing, curing_d]), shapeOf(toCurve(run, options.protocol)));
  });
  return meanShape(sums);
}

/** Scores of smoothing widths on every specimen of a folder. */
export async function surveyWidths(jobs: readonly Job[], options: SurveyOptions): Promise<WidthScore[][]> {
  const scores: WidthScore[][] = [];
  const widths = smoothingWidths(options.protocol);
  await survey(jobs, options, (run) => {
    scores.push(scoreWidths(run, options.protocol, widths));
  });
  return scores;
}

/** Runs that cannot be read are left out here; the pass that measures reports them. */
async function survey(jobs: readonly Job[], options: SurveyOptions, take: (run: Run, job: Job) => void): Promise<void> {
  const { folder, protocol, onProgress, signal } = options;
  const specimens = jobs.filter(({ role }) => role === "specimen");
  for (const [done, job] of specimens.entries()) {
    signal?.throwIfAborted();
    const { file, columns, blank, initial_mass_mg } = job;
    try {
      const known = initial_mass_mg === null ? {} : { initialMass_mg: initial_mass_mg };
      const run = readRun(readBytes(resolve(folder, file), { name: file }), { name: file, columns, ...known });
      const columnsOfBlank = jobs.find((one) => one.file === blank)?.columns ?? [];
      const corrected =
        blank === null ? run : subtractBlank(run, readBlank(blank, { folder, columns: columnsOfBlank }), protocol);
      // A run that the measuring pass refuses must not place the edges of the others.
      if (corrected.mass[0]! >= leastMass) take(corrected, job);
    } catch (error) {
      if (!(error instanceof UnreadableError || error instanceof FileError)) throw error;
    }
    onProgress?.(done + 1, specimens.length);
    await new Promise<void>((turn) => setImmediate(turn));
  }
}
