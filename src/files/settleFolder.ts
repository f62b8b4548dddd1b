import { resolve } from "node:path";
import type { Plan } from "../campaign/types.ts";
import { needsCurves } from "../protocol/needsCurves.ts";
import { settle } from "../protocol/settle.ts";
import type { Protocol, SettledProtocol } from "../protocol/types.ts";
import { surveyFiles } from "./surveyFiles.ts";

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
  return settle(protocol, { mean: await surveyFiles(plan.jobs, { ...rest, protocol, folder: resolve(cwd, folder) }) });
}
