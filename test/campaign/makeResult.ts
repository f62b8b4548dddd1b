import type { Measured } from "../../src/measured.ts";
import { protocols } from "../../src/protocol/protocols.ts";
import { settle } from "../../src/protocol/settle.ts";
import type { RunDone, RunFailed, SettledProtocol, WindowResult } from "../../src/protocol/types.ts";

/** The built-in protocol with two windows, so that a test can be read. */
export const twoWindows: SettledProtocol = settle({ ...protocols.csa, windows: protocols.csa.windows.slice(0, 2) });

export const known = (value: number): Measured => ({ value, u: null, terms: [] });

/** Result of a run with the given index in each of the two windows (aft-afm, ah3). */
export function makeResult(
  file: string,
  indices: readonly [number | string, number | string],
  head: Partial<RunDone> = {},
): RunDone {
  const windows = twoWindows.windows.map((window, i): WindowResult => {
    const given = indices[i]!;
    const index: Measured = typeof given === "number" ? known(given) : { missing: given };
    return {
      window: window.name,
      from_C: window.from_C,
      to_C: window.to_C,
      rule: window.rule,
      basis: "ignited",
      loss_mg: index,
      loss_pct_initial: index,
      index,
      index_step: index,
      index_area: index,
      index_tangent: { missing: "no-tangent-ranges" },
      index_shifted: { from_down: null, from_up: null, to_down: null, to_up: null },
      detection_limit: null,
      peak_C: null,
      peak_dtg_pct_per_C: null,
      flags: [],
    };
  });
  return {
    file,
    sha256: null,
    mix: "M1",
    curing: "moist",
    curing_d: 7,
    age_d: 7,
    specimen: file,
    replicate: null,
    role: "specimen",
    session: null,
    status: indices.every((index) => typeof index === "number") ? "done" : "incomplete",
    balance: null,
    gas: null,
    crucible: null,
    reading: { encoding: "utf-8", delimiter: "\t", decimal_mark: ".", columns: [], rows_read: 900, rows_dropped: [] },
    rows_read: 900,
    rows_used: 890,
    start_C: 30,
    end_C: 960,
    initial_mass_mg: 20,
    ignited_mass_mg: known(15),
    residue_pct: known(75),
    loi_pct: known(25),
    heating_rate_K_per_min: 10,
    noise_ug: 1,
    windows,
    phases: [],
    peaks: [],
    flags: [],
    ...head,
  };
}

export function makeFailure(file: string, head: Partial<RunFailed> = {}): RunFailed {
  const { sha256, mix, curing, curing_d, age_d, specimen, replicate, role, session } = makeResult(file, [0, 0]);
  return {
    ...{ file, sha256, mix, curing, curing_d, age_d, specimen, replicate, role, session },
    status: "failed",
    error: { code: "no-table", message: `${file}: holds no table` },
    ...head,
  };
}
