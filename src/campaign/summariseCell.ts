import { type Flag, type FlagCode, flag, flagKinds } from "../flags.ts";
import type { Window } from "../losses/types.ts";
import type { Measured } from "../measured.ts";
import { mean } from "../numerics/mean.ts";
import { standardDeviation } from "../numerics/standardDeviation.ts";
import { studentQuantile } from "../numerics/studentQuantile.ts";
import type { RunDone, RunResult, SettledProtocol, WindowResult } from "../protocol/types.ts";
import { someNames } from "./someNames.ts";
import type { AgeRow } from "./types.ts";

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
export function summariseCell(runs: readonly RunResult[], protocol: SettledProtocol): AgeRow[] {
  const named = new Set(protocol.windows.map(({ name }) => name));
  const isothermals = new Map<string, Pick<Window, "name" | "rule">>();
  for (const run of runs) {
    if (run.status === "failed") continue;
    for (const { window, rule } of run.windows) if (!named.has(window)) isothermals.set(window, { name: window, rule });
  }
  const further = [...isothermals.keys()].sort().map((name) => isothermals.get(name)!);
  return [
    ...protocol.windows.map((window) => oneRow(runs, window, protocol)),
    // A run without this isothermal misses nothing.
    ...further.map((window) =>
      oneRow(
        runs.filter((run) => windowOf(run, window.name)),
        window,
        protocol,
      ),
    ),
  ];
}

function oneRow(
  runs: readonly RunResult[],
  { name, rule }: Pick<Window, "name" | "rule">,
  protocol: SettledProtocol,
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
  const specimens = new Map<string, number[]>();
  for (const { run, value } of counted) specimens.set(run.specimen, [...(specimens.get(run.specimen) ?? []), value]);
  const { mix, curing, curing_d, age_d } = runs[0]!;
  return {
    mix,
    curing,
    curing_d,
    age_d,
    window: name,
    rule,
    basis: protocol.basis,
    n_specimens: specimens.size,
    n_runs: counted.length,
    ...statistics(
      [...specimens.values()].map((values) => mean(values)),
      missing,
    ),
    u_shared: null,
    index_u: null,
    flags: flagsOf(name, specimens.size, { counted, missing, of: runs.length }),
  };
}

function windowOf(run: RunResult, name: string): WindowResult | undefined {
  return run.status === "failed" ? undefined : run.windows.find(({ window }) => window === name);
}

type Statistics = Pick<AgeRow, "index" | "index_sd" | "u_random" | "df" | "index_lo95" | "index_hi95">;

function statistics(values: readonly number[], missing: readonly { code: string }[]): Statistics {
  const none = { index_sd: null, u_random: null, df: null, index_lo95: null, index_hi95: null };
  const n = values.length;
  if (n === 0) {
    const codes = new Set(missing.map(({ code }) => code));
    const index: Measured = { missing: codes.size === 1 ? [...codes][0]! : "runs-missing" };
    return { index, ...none };
  }
  const average = mean(values);
  const index: Measured = { value: average, u: null, terms: [] };
  if (n === 1) return { index, ...none };
  const df = n - 1;
  const sd = standardDeviation(values);
  const u = sd / Math.sqrt(n);
  const half = studentQuantile(0.975, df) * u;
  return { index, index_sd: sd, u_random: u, df, index_lo95: average - half, index_hi95: average + half };
}

function flagsOf(
  name: string,
  specimens: number,
  runs: { counted: readonly Counted[]; missing: readonly { file: string; code: string }[]; of: number },
): Flag[] {
  const { counted, missing, of } = runs;
  const flags: Flag[] = [];
  if (missing.length > 0) {
    const which = someNames(missing.map(({ file, code }) => `${file} (${code})`));
    flags.push(flag("runs-missing", `${missing.length} of ${of} runs have no index: ${which}.`, name));
  }
  if (specimens === 1) {
    const sentence = `The index of ${counted.length === 1 ? "one run" : `${counted.length} runs`} of one specimen has no interval.`;
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
