import { resolve } from "node:path";
import { type Sketch, sketch } from "../curve/sketch.ts";
import type { Curve } from "../curve/types.ts";
import { UnreadableError } from "../errors.ts";
import { leastMass } from "../massLimits.ts";
import type { Mix } from "../phases/types.ts";
import { indexBytes } from "../protocol/indexBytes.ts";
import { runHead } from "../protocol/runHead.ts";
import type { Job, RunFailed, RunResult, SettledProtocol } from "../protocol/types.ts";
import type { ColumnOverride } from "../read/types.ts";
import { runJson } from "../render/campaignJson.ts";
import { curveJson } from "../render/curveJson.ts";
import { FileError } from "./fileError.ts";
import { readBlank } from "./readBlank.ts";
import { readBytes } from "./readBytes.ts";
import { sha256 } from "./sha256.ts";

/** One file to be measured. */
export interface FileJob {
  job: Job;
  mix: Mix | null;
  /** Columns of the blank run, from its own row. @default inferred */
  blankColumns?: ColumnOverride[];
}

/** What leaves the worker: plain data. */
export interface MeasuredFile {
  result: RunResult;
  /** The run as its line of campaign.json, UTF-8: written here, in parallel, it costs nothing later. */
  line: Uint8Array;
  /** TG and DTG for the eye as its line of curves.ndjson, UTF-8; null for a run that failed. */
  curve: Uint8Array | null;
  /** Where an unexpected error of this program came from; absent otherwise. */
  stack?: string;
}

/**
 * A file → its indices and its sketch. Nothing that is in a file, and no error of this program, stops the other files: it is a
 * `RunFailed` of its own.
 */
export function measureFile(
  { job, mix, blankColumns: columns = [] }: FileJob,
  { folder, protocol }: { folder: string; protocol: SettledProtocol },
): MeasuredFile {
  try {
    const bytes = readBytes(resolve(folder, job.file), { name: job.file, lend: true });
    let drawn: Sketch | null = null;
    // An empty crucible has no initial mass to be drawn in % of.
    const onCurve = (curve: Curve): void => {
      if (job.role !== "blank" && curve.initialMass >= leastMass) drawn = sketch(curve);
    };
    const blank = job.blank === null ? null : readBlank(job.blank, { folder, columns });
    const result = indexBytes(bytes, job, { protocol, mix, sha256: sha256(bytes), onCurve, blank });
    return written(result, drawn);
  } catch (error) {
    const fail = (code: string, message: string): RunFailed => ({
      ...runHead(job, null),
      status: "failed",
      error: { code, message },
    });
    if (error instanceof FileError || error instanceof UnreadableError) {
      return written(fail(error.code, error.message), null);
    }
    const { message, stack } = error instanceof Error ? error : new Error(String(error));
    const sentence = `${job.file}: An error of tg-hydrates itself (${message}). Report it with this file; the other runs are not affected.`;
    return { ...written(fail("internal-error", sentence), null), ...(stack === undefined ? {} : { stack }) };
  }
}

/** @throws RangeError where a number is not finite: it could not be written later either, and that writing is for all runs. */
export function written(result: RunResult, drawn: Sketch | null): MeasuredFile {
  const { file } = result;
  return {
    result,
    line: runJson(result),
    curve: drawn && curveJson({ file, ...drawn }),
  };
}
