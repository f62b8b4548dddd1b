import { Worker } from "node:worker_threads";
import { runHead } from "../protocol/runHead.ts";
import type { FileJob, MeasuredFile } from "./measureFile.ts";
import type { MeasureOptions } from "./measureFiles.ts";

/**
 * Measures files in worker threads, each with one file at a time, so that memory stays bounded. A worker that dies (memory)
 * fails the file it had and is replaced.
 */
export function runWorkers(
  jobs: readonly FileJob[],
  options: MeasureOptions & { worker: URL },
): Promise<MeasuredFile[]> {
  const { worker: script, folder, protocol, threads, onProgress, signal } = options;
  const measured: MeasuredFile[] = new Array(jobs.length);
  const running = new Set<Worker>();
  let next = 0;
  let done = 0;
  return new Promise<MeasuredFile[]>((resolve, reject) => {
    const stop = (): void => {
      signal?.removeEventListener("abort", abort);
      for (const worker of running) void worker.terminate();
      running.clear();
    };
    const abort = (): void => {
      stop();
      reject(signal?.reason);
    };
    const start = (): void => {
      const worker = new Worker(script, { workerData: { folder, protocol } });
      running.add(worker);
      let index = -1;
      const give = (): void => {
        index = next++;
        const job = jobs[index];
        if (job) {
          worker.postMessage(job);
          return;
        }
        running.delete(worker);
        void worker.terminate();
      };
      const take = (one: MeasuredFile): void => {
        measured[index] = one;
        done++;
        onProgress?.(done, jobs.length);
        if (done < jobs.length) return;
        stop();
        resolve(measured);
      };
      worker.on("message", (one: MeasuredFile) => {
        try {
          take(one);
          if (running.has(worker)) give();
        } catch (error) {
          // Only the caller's own onProgress can throw here.
          stop();
          reject(error);
        }
      });
      worker.on("error", (error: unknown) => {
        if (!running.delete(worker)) return;
        take(died(jobs[index]!, error));
        if (next < jobs.length && done < jobs.length) start();
      });
      give();
    };
    if (signal?.aborted) return abort();
    signal?.addEventListener("abort", abort, { once: true });
    for (let i = 0; i < Math.min(threads, jobs.length); i++) start();
  });
}

function died({ job }: FileJob, error: unknown): MeasuredFile {
  const reason = error instanceof Error ? error.message : String(error);
  const message = `${job.file}: The thread that measured this file ended (${reason}). Run with --jobs 1; if that fails too, report it.`;
  const stack = error instanceof Error ? error.stack : undefined;
  return {
    result: { ...runHead(job, null), status: "failed", error: { code: "internal-error", message } },
    sketch: null,
    ...(stack === undefined ? {} : { stack }),
  };
}
