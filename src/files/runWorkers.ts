import { Worker } from "node:worker_threads";
import { runHead } from "../protocol/runHead.ts";
import { isLarge } from "./isLarge.ts";
import { type FileJob, type MeasuredFile, measureFile, written } from "./measureFile.ts";
import type { MeasureOptions } from "./measureFiles.ts";

/** Files that a worker has: the one it measures and the next ones, so that it need not wait for this thread. */
const AT_HAND = 4;

/** Room for young objects in a worker, MB: a run makes many short-lived ones, and none of them should grow old. */
const YOUNG_MB = 24;

/** A worker that met an error is given up after so long, if the engine does not say that it is gone, ms. */
const EXIT_MS = 1000;

/**
 * Measures files in `threads` threads, each with few files at a time, so that memory stays bounded. This thread is one of them,
 * between its other duties; the others are workers. A worker that dies (memory) fails the file it measured and is replaced.
 *
 * @param options `takesPart`: whether this thread measures too. @default true
 */
export function runWorkers(
  jobs: readonly FileJob[],
  options: MeasureOptions & { worker: URL; takesPart?: boolean },
): Promise<MeasuredFile[]> {
  const { worker: script, folder, protocol, threads, onProgress, signal, takesPart = true } = options;
  const measured: MeasuredFile[] = new Array(jobs.length);
  const running = new Set<Worker>();
  const waiting = jobs.map((_, i) => i).reverse();
  let done = 0;
  let over = false;
  return new Promise<MeasuredFile[]>((resolve, reject) => {
    const stop = (): void => {
      over = true;
      signal?.removeEventListener("abort", abort);
      // Some engines say at once, inside this call, that a worker is gone.
      const ended = [...running];
      running.clear();
      for (const worker of ended) void worker.terminate();
    };
    const abort = (): void => {
      stop();
      reject(signal?.reason);
    };
    const take = (index: number, one: MeasuredFile): void => {
      measured[index] = one;
      done++;
      try {
        onProgress?.(done, jobs.length);
      } catch (error) {
        stop();
        reject(error);
      }
      if (over || done < jobs.length) return;
      stop();
      resolve(measured);
    };
    const start = (): void => {
      const worker = new Worker(script, {
        workerData: { folder, protocol },
        resourceLimits: { maxYoungGenerationSizeMb: YOUNG_MB },
      });
      running.add(worker);
      const given: number[] = [];
      const give = (): void => {
        while (given.length < AT_HAND && waiting.length > 0) {
          const index = waiting.pop()!;
          given.push(index);
          worker.postMessage(jobs[index]);
        }
        if (given.length > 0) return;
        running.delete(worker);
        void worker.terminate();
      };
      worker.on("message", (one: MeasuredFile) => {
        if (!running.has(worker)) return;
        take(given.shift()!, one);
        if (running.has(worker)) give();
      });
      const fail = (error: unknown): void => {
        if (!running.delete(worker)) return;
        // What it had at hand but not begun goes back.
        waiting.push(...given.splice(1).reverse());
        const [index] = given;
        if (index !== undefined) take(index, died(jobs[index]!, error));
        if (waiting.length > 0 && !over) start();
      };
      // What it has sent before it died is handed over by its exit only, perhaps after its error; and one that ends without an
      // error would be waited for without end.
      let reason: unknown = null;
      let late: NodeJS.Timeout | undefined;
      worker.on("error", (error: unknown) => {
        reason = error;
        late = setTimeout(() => fail(error), EXIT_MS);
      });
      worker.on("exit", (code) => {
        clearTimeout(late);
        fail(reason ?? new Error(`exit code ${code}`));
      });
      give();
    };
    const takePart = (): void => {
      const index = waiting.at(-1);
      if (over || index === undefined) return;
      if (isLarge(folder, jobs[index]!.job.file)) {
        start();
        return;
      }
      waiting.pop();
      take(index, measureFile(jobs[index]!, options));
      // Messages, signals and timers get their turn between two files.
      setImmediate(takePart);
    };
    if (signal?.aborted) return abort();
    signal?.addEventListener("abort", abort, { once: true });
    for (let i = takesPart ? 1 : 0; i < Math.min(threads, jobs.length); i++) start();
    if (takesPart) setImmediate(takePart);
  });
}

function died({ job }: FileJob, error: unknown): MeasuredFile {
  const reason = error instanceof Error ? error.message : String(error);
  const message = `${job.file}: The thread that measured this file ended (${reason}). Run with --jobs 1; if that fails too, report it.`;
  const stack = error instanceof Error ? error.stack : undefined;
  return {
    ...written({ ...runHead(job, null), status: "failed", error: { code: "internal-error", message } }, null),
    ...(stack === undefined ? {} : { stack }),
  };
}
