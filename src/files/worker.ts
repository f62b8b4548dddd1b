// Entry of the worker: measures one file after another until its parent has no more.
import { parentPort, workerData } from "node:worker_threads";
import type { SettledProtocol } from "../protocol/types.ts";
import { type FileJob, measureFile } from "./measureFile.ts";

const port = parentPort;
const context = workerData as { folder: string; protocol: SettledProtocol };
port?.on("message", (job: FileJob) => {
  const measured = measureFile(job, context);
  const { line, curve } = measured;
  // Handed over, not copied.
  port.postMessage(
    measured,
    curve ? [line.buffer as ArrayBuffer, curve.buffer as ArrayBuffer] : [line.buffer as ArrayBuffer],
  );
});
