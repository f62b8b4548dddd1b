import { existsSync, statSync } from "node:fs";
import { resolve } from "node:path";
import type { SettledProtocol } from "../protocol/types.ts";
import { type FileJob, type MeasuredFile, measureFile } from "./measureFile.ts";
import { runWorkers } from "./runWorkers.ts";

/** A file of so many bytes keeps a thread for a third of a second: no signal would be heard meanwhile. */
const LONG = 8_000_000;

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
    const { size } = statSync(resolve(options.folder, job.job.file), { throwIfNoEntry: false }) ?? { size: 0 };
    if (size > LONG && worker !== null) measured.push(...(await runWorkers([job], { ...alone, worker })));
    else measured.push(measureFile(job, options));
    onProgress?.(measured.length, jobs.length);
    // Signals and timers get their turn between two files.
    await new Promise<void>((done) => setImmediate(done));
  }
  signal?.throwIfAborted();
  return measured;
}

/** Beside this module, with the ending of this module: built JavaScript, or the source where the engine runs TypeScript. */
function ownWorker(): URL | null {
  const ending = import.meta.url.endsWith(".ts") ? ".ts" : ".js";
  const { typescript } = process.features as { typescript?: unknown };
  if (ending === ".ts" && !typescript && !("Deno" in globalThis)) return null;
  const script = new URL(`./worker${ending}`, import.meta.url);
  return existsSync(script) ? script : null;
}
