import { existsSync } from "node:fs";
import type { SettledProtocol } from "../protocol/types.ts";
import { isLarge } from "./isLarge.ts";
import { type FileJob, type MeasuredFile, measureFile } from "./measureFile.ts";
import { runWorkers } from "./runWorkers.ts";

/** Options of {@link measureFiles}. */
export interface MeasureOptions {
  folder: string;
  protocol: SettledProtocol;
  /** Threads; 1 measures on the calling one, but for large files. */
  threads: number;
  /** Script of the worker. @default the one that belongs to this build; null where there is none, as for plain TypeScript in Node 20 */
  worker?: URL | null;
  onProgress?: (done: number, total: number) => void;
  signal?: AbortSignal;
}

/**
 * Measures files, one after another or in workers; the outcome is the same to the byte.
 *
 * @returns In the order of the jobs.
 * @throws The reason of the signal, soon after it is aborted.
 */
export async function measureFiles(jobs: readonly FileJob[], options: MeasureOptions): Promise<MeasuredFile[]> {
  const { threads, worker = ownWorker(), onProgress, signal } = options;
  if (threads > 1 && jobs.length > 1 && worker !== null) return runWorkers(jobs, { ...options, worker });
  const measured: MeasuredFile[] = [];
  const { onProgress: _, ...alone } = options;
  for (const job of jobs) {
    signal?.throwIfAborted();
    if (worker !== null && isLarge(options.folder, job.job.file))
      measured.push(...(await runWorkers([job], { ...alone, worker })));
    else measured.push(measureFile(job, options));
    onProgress?.(measured.length, jobs.length);
    // Signals and timers get their turn between two files.
    await new Promise<void>((done) => setImmediate(done));
  }
  signal?.throwIfAborted();
  return measured;
}

/**
 * With the ending of this module: built JavaScript, or the source where the engine runs TypeScript. It stands beside this module,
 * or a folder up where this module was bundled into a chunk.
 */
function ownWorker(): URL | null {
  const ending = import.meta.url.endsWith(".ts") ? ".ts" : ".js";
  const { typescript } = process.features as { typescript?: unknown };
  if (ending === ".ts" && !typescript && !("Deno" in globalThis)) return null;
  const places = [`./worker${ending}`, `../worker${ending}`].map((place) => new URL(place, import.meta.url));
  return places.find((place) => existsSync(place)) ?? null;
}
