import { subtractBlank } from "../curve/subtractBlank.ts";
import { toCurve } from "../curve/toCurve.ts";
import type { Curve } from "../curve/types.ts";
import { UnreadableError } from "../errors.ts";
import { losses } from "../losses/losses.ts";
import type { Mix } from "../phases/types.ts";
import { readRun } from "../read/readRun.ts";
import type { Run } from "../read/types.ts";
import { indexCurve } from "./indexCurve.ts";
import { runHead } from "./runHead.ts";
import type { Job, RunResult, SettledProtocol } from "./types.ts";

/**
 * Bytes of one file → its result, whatever is in them: what a worker does with every job. A file that cannot be read or
 * analysed is a `RunFailed` with the reason; it never stops the others.
 *
 * @param options `onCurve` is shown the curve, which does not leave otherwise: for a sketch; `blank` is the
 * run of the empty crucible that the job names.
 *
 * @example
 * ```ts
 * import { indexBytes, newJob, protocols, settle } from "tg-hydrates";
 * const bytes = new TextEncoder().encode("this is no table");
 * const result = indexBytes(bytes, newJob("a.txt"), { protocol: settle(protocols.csa) });
 * if (result.status !== "failed" || !result.error.message.includes("a.txt")) throw new Error("the reason is in the result");
 * ```
 */
export function indexBytes(
  bytes: Uint8Array,
  job: Job,
  options: {
    protocol: SettledProtocol;
    mix?: Mix | null;
    sha256?: string | null;
    onCurve?: (curve: Curve) => void;
    blank?: Run | null;
  },
): RunResult {
  const { protocol, mix = null, sha256 = null, onCurve, blank = null } = options;
  try {
    const known = job.initial_mass_mg === null ? {} : { initialMass_mg: job.initial_mass_mg };
    const run = readRun(bytes, { name: job.file, columns: job.columns, ...known });
    const source = sha256 === null ? run.source : { ...run.source, sha256 };
    const measured = { ...run, source };
    const curve = toCurve(blank ? subtractBlank(measured, blank, protocol) : measured, protocol);
    onCurve?.(curve);
    return indexCurve(curve, losses(curve, protocol), { job, mix, protocol });
  } catch (error) {
    if (!(error instanceof UnreadableError)) throw error;
    const { line, column } = error.place;
    return {
      ...runHead(job, sha256),
      status: "failed",
      error: {
        code: error.code,
        message: error.message,
        ...(line === undefined ? {} : { line }),
        ...(column === undefined ? {} : { column }),
      },
    };
  }
}
