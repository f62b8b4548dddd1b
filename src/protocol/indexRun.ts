import { toCurve } from "../curve/toCurve.ts";
import type { Curve } from "../curve/types.ts";
import { losses } from "../losses/losses.ts";
import type { Mix } from "../phases/types.ts";
import type { Run } from "../read/types.ts";
import { indexCurve } from "./indexCurve.ts";
import type { Job, RunDone, SettledProtocol } from "./types.ts";

/** What is known about a run beside its readings. */
export interface IndexOptions {
  /** The row of the run sheet. @default a specimen of which only the file name is known */
  job?: Partial<Job>;
  /** The mix, for the basis `binder`. @default null */
  mix?: Mix | null;
}

/**
 * Run → indices: curve, losses, ignited mass and indices of one run under a settled protocol.
 *
 * @param run From `readRun`.
 * @param protocol From `settle`.
 * @returns Plain JSON data. A number that cannot be had is `{missing: code}`, and a flag says why.
 * @throws RangeError where the run is no heating run; TypeError for a protocol that is not settled.
 *
 * @example
 * ```ts
 * import { indexRun, protocols, readRun, settle } from "tg-hydrates";
 * const rows = ["T/°C\tm/mg"];
 * for (let T = 30; T <= 960; T += 0.5) rows.push(`${T}\t${(20 - 4 / (1 + Math.exp((130 - T) / 5))).toFixed(4)}`);
 * const run = readRun(new TextEncoder().encode(rows.join("\n")), { name: "a.txt" });
 * const result = indexRun(run, settle(protocols.csa), { job: { mix: "M1", age_min: 1440 } });
 * const aft = result.windows[0]!.index;
 * if (!("value" in aft) || Math.abs(aft.value - 25) > 0.01) throw new Error("4 mg of 16 mg ignited are 25 g per 100 g");
 * ```
 */
export function indexRun(run: Run, protocol: SettledProtocol, options: IndexOptions = {}): RunDone {
  const curve: Curve = toCurve(run, protocol);
  return indexCurve(curve, losses(curve, protocol), { ...options, protocol });
}
