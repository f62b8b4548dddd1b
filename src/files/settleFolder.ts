import { resolve } from "node:path";
import type { Plan } from "../campaign/types.ts";
import { needsCurves } from "../protocol/needsCurves.ts";
import { settle } from "../protocol/settle.ts";
import { settleSmoothing } from "../protocol/settleSmoothing.ts";
import type { Protocol, SettledProtocol } from "../protocol/types.ts";
import { surveyShapes, surveyWidths } from "./surveyFiles.ts";

/**
 * Settles a protocol on a folder whose plan is made: with shared placement or `resolve` the runs are read once for their
 * mean DTG, otherwise none is.
 *
 * @param folder Absolute, or relative to `cwd`.
 */
export async function settleFolder(
  folder: string,
  plan: Plan,
  options: {
    protocol: Protocol;
    cwd?: string;
    onProgress?: (done: number, total: number) => void;
    signal?: AbortSignal;
  },
): Promise<SettledProtocol> {
  const { protocol, cwd = "", ...rest } = options;
  if (!needsCurves(protocol)) return settle(protocol);
  const survey = { ...rest, folder: resolve(cwd, folder) };
  if (!protocol.smoothing.choose)
    return settle(protocol, { mean: await surveyShapes(plan.jobs, { ...survey, protocol }) });
  const scores = await surveyWidths(plan.jobs, { ...survey, protocol });
  if (scores.length === 0) {
    // No run can be read: the pass that measures says why, for each of them.
    const { choose: _, ...smoothing } = protocol.smoothing;
    return settle({ ...protocol, smoothing }, { mean: null });
  }
  const { protocol: smoothed, record } = settleSmoothing(protocol, scores);
  // The minima are those of the curves as they will be smoothed.
  const mean = needsCurves(smoothed) ? await surveyShapes(plan.jobs, { ...survey, protocol: smoothed }) : null;
  return settle(smoothed, { mean, smoothing: record });
}
