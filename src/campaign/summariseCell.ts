import { type Flag, type FlagCode, flag, flagKinds } from "../flags.ts";
import type { Window } from "../losses/types.ts";
import type { Measured } from "../measured.ts";
import { mean } from "../numerics/mean.ts";
import { standardDeviation } from "../numerics/standardDeviation.ts";
import type { CellKey, RunDone, RunResult, SettledProtocol, WindowResult } from "../protocol/types.ts";
import { outlierFlags } from "./outlierFlags.ts";
import { someNames } from "./someNames.ts";
import { type Specimen, specimensOf } from "./specimensOf.ts";
import type { AgeRow, ScatterRow } from "./types.ts";
import { uncertaintyOfCell } from "./uncertaintyOfCell.ts";

/** A run that has an index in the window at hand. */
interface Counted {
  run: RunDone;
  window: WindowResult;
  value: number;
}

/**
 * One cell → one row per window, in the order of the protocol; isothermals, which are windows of single runs, come after it.
 *
 * @param runs All runs of the cell, sorted.
 */
export function summariseCell(
  runs: readonly RunResult[],
  options: { protocol: SettledProtocol; scatter: readonly ScatterRow[] },
): AgeRow[] {
  const { protocol } = options;
  const named = new Set(protocol.windows.map(({ name }) => name));
  const isothermals = new Map<string, Pick<Window, "name" | "rule">>();
  for (const run of runs) {
    if (run.status === "failed") continue;
    for (const { window, rule } of run.windows) if (!named.has(window)) isothermals.set(window, { name: window, rule });
  }
  const further = [...isothermals.keys()].sort().map((name) => isothermals.get(name)!);
  return [
    ...protocol.windows.map((window) => oneRow(runs, window, options)),
    // A run without this isothermal misses nothing.
    ...further.map((window) =>
      oneRow(
        runs.filter((run) => windowOf(run, window.name)),
        window,
        options,
      ),
    ),
  ];
}

function oneRow(
  runs: readonly RunResult[],
  { name, rule }: Pick<Window, "name" | "rule">,
  { protocol, scatter }: { protocol: SettledProtocol; scatter: readonly ScatterRow[] },
): AgeRow {
  const counted: Counted[] = [];
  const missing: { file: string; code: string }[] = [];
  for (const run of runs) {
    const window = windowOf(run, name);
    if (run.status === "failed") missing.push({ file: run.file, code: run.error.code });
    else if (!window) missing.push({ file: run.file, code: "no-such-window" });
    else if ("missing" in window.index) missing.push({ file: run.file, code: window.index.missing });
    else counted.push({ run, window, value: window.index.value });
  }
  const specimens = specimensOf(
    counted.map(({ run, value, window }) => ({
      specimen: run.specimen,
      value,
      terms: "missing" in window.index ? [] : window.index.terms,
    })),
  );
  const { mix, curing, curing_d, age_d } = runs[0]!;
  const pooled = scatter.find(({ window }) => window === name) ?? null;
  return {
    mix,
    curing,
    curing_d,
    age_d,
    window: name,
    rule,
    basis: protocol.basis,
    n_specimens: specimens.length,
    n_runs: counted.length,
    ...statistics(specimens, { missing, scatter: pooled, key: JSON.stringify([mix, curing, curing_d, age_d, name]) }),
    flags: [
      ...flagsOf(name, specimens.length, { counted, missing, of: runs.length, known: pooled !== null }),
      ...outlierFlags(specimens, { window: name, scatter: pooled }),
    ],
  };
}

function windowOf(run: RunResult, name: string): WindowResult | undefined {
  return run.status === "failed" ? undefined : run.windows.find(({ window }) => window === name);
}

type Statistics = Omit<AgeRow, keyof CellKey | "window" | "rule" | "basis" | "n_specimens" | "n_runs" | "flags">;

function statistics(
  specimens: readonly Specimen[],
  options: { missing: readonly { code: string }[]; scatter: ScatterRow | null; key: string },
): Statistics {
  const { missing, scatter, key } = options;
  const none = {
    index_sd: null,
    u_random: null,
    u_shared: null,
    df: null,
    index_u: null,
    index_lo95: null,
    index_hi95: null,
  };
  const values = specimens.map(({ value }) => value);
  if (values.length === 0) {
    const codes = new Set(missing.map(({ code }) => code));
    const index: Measured = { missing: codes.size === 1 ? [...codes][0]! : "runs-missing" };
    return { index, ...none };
  }
  const value = mean(values);
  const index_sd = values.length === 1 ? null : standardDeviation(values);
  const u = uncertaintyOfCell(specimens, { index: value, scatter, key });
  if (u === null) return { ...none, index: { value, u: null, terms: [] }, index_sd };
  const { u_random, u_shared, index_u, df, half, terms } = u;
  const index: Measured = { value, u: index_u, terms };
  return { index, index_sd, u_random, u_shared, df, index_u, index_lo95: value - half, index_hi95: value + half };
}

function flagsOf(
  name: string,
  specimens: number,
  runs: { counted: readonly Counted[]; missing: readonly { file: string; code: string }[]; of: number; known: boolean },
): Flag[] {
  const { counted, missing, of, known } = runs;
  const flags: Flag[] = [];
  if (missing.length > 0) {
    const which = someNames(missing.map(({ file, code }) => `${file} (${code})`));
    flags.push(flag("runs-missing", `${missing.length} of ${of} runs have no index: ${which}.`, name));
  }
  if (specimens === 1) {
    const of = counted.length === 1 ? "one run" : `${counted.length} runs`;
    const sentence = known
      ? `The index of ${of} of one specimen takes its interval from the scatter in the other cells.`
      : `The index of ${of} of one specimen has no interval.`;
    flags.push(flag("one-specimen", sentence, name));
  }
  return [...flags, ...carriedFlags(name, counted)];
}

/** Findings about the runs behind a mean concern the mean too; notes do not. */
function carriedFlags(name: string, counted: readonly Counted[]): Flag[] {
  const files = new Map<FlagCode, Set<string>>();
  for (const { run, window } of counted) {
    for (const { code, severity, window: of } of [...run.flags, ...window.flags]) {
      if (severity === "note" || (of !== undefined && of !== name)) continue;
      files.set(code, (files.get(code) ?? new Set()).add(run.file));
    }
  }
  return [...files.keys()]
    .filter((code) => Object.hasOwn(flagKinds, code))
    .sort()
    .map((code) => {
      const flagged = [...files.get(code)!];
      return flag(code, `Flagged in ${flagged.length} of ${counted.length} runs: ${someNames(flagged)}.`, name);
    });
}
