import { resolve } from "node:path";
import { type Sketch, sketch } from "../curve/sketch.ts";
import type { Curve } from "../curve/types.ts";
import { UnreadableError } from "../errors.ts";
import type { Mix } from "../phases/types.ts";
import { indexBytes } from "../protocol/indexBytes.ts";
import { runHead } from "../protocol/runHead.ts";
import type { Job, RunFailed, RunResult, SettledProtocol } from "../protocol/types.ts";
import { FileError } from "./fileError.ts";
import { readBlank } from "./readBlank.ts";
import { readBytes } from "./readBytes.ts";
import { sha256 } from "./sha256.ts";

/** One file to be measured. */
export interface FileJob {
  job: Job;
  mix: Mix | null;
}

/** What leaves the worker: plain data. */
export interface MeasuredFile {
  result: RunResult;
  /** TG and DTG for the eye; null for a run that failed. */
  sketch: Sketch | null;
  /** Where an unexpected error of this program came from; absent otherwise. */
  stack?: string;
}

/**
 * A file → its indices and its sketch. Nothing that is in a file, and no error of this program, stops the other files: it is a
 * `RunFailed` of its own.
 */
export function measureFile(
  { job, mix }: FileJob,
  { folder, protocol }: { folder: string; protocol: SettledProtocol },
): MeasuredFile {
  try {
    const bytes = readBytes(resolve(folder, job.file), { name: job.file });
    let drawn: Sketch | null = null;
    const onCurve = (curve: Curve): void => {
      drawn = sketch(curve);
    };
    const blank = job.blank === null ? null : readBlank(job.blank, folder);
    return { result: indexBytes(bytes, job, { protocol, mix, sha256: sha256(bytes), onCurve, blank }), sketch: drawn };
  } catch (error) {
    const fail = (code: string, message: string): RunFailed => ({
      ...runHead(job, null),
      status: "failed",
      error: { code, message },
    });
    if (error instanceof FileError || error instanceof UnreadableError) {
      return { result: fail(error.code, error.message), sketch: null };
    }
    const { message, stack } = error instanceof Error ? error : new Error(String(error));
    const sentence = `${job.file}: An error of tg-hydrates itself (${message}). Report it with this file; the other runs are not affected.`;
    return { result: fail("internal-error", sentence), sketch: null, ...(stack === undefined ? {} : { stack }) };
  }
}
