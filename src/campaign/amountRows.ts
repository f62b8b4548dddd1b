import { type Flag, type FlagCode, flag, flagKinds } from "../flags.ts";
import type { Measured } from "../measured.ts";
import { mean } from "../numerics/mean.ts";
import { standardDeviation } from "../numerics/standardDeviation.ts";
import type { PhaseResult } from "../phases/types.ts";
import type { RunDone, RunResult } from "../protocol/types.ts";
import { type Scatter, scatterOf } from "./scatterOf.ts";
import { someNames } from "./someNames.ts";
import { specimensOf } from "./specimensOf.ts";
import type { AmountRow } from "./types.ts";
import { uncertaintyOfCell } from "./uncertaintyOfCell.ts";

/** A phase on a basis, as the runs have it. */
type Kind = Pick<PhaseResult, "phase" | "window" | "mol_lost" | "basis">;

/**
 * Amounts per cell: replicates averaged first, then the mean over specimens with the interval from the scatter of specimens pooled
 * over the campaign, as for the indices.
 *
 * @param cells Runs of every cell, sorted.
 * @returns Cell by cell, phases and bases in the order of the runs.
 */
export function amountRows(cells: readonly (readonly RunResult[])[]): AmountRow[] {
  const kinds = kindsOf(cells.flat());
  const scatter = kinds.map((kind) =>
    scatterOf(cells.map((runs) => specimensOf(countedOf(runs, kind)).map(({ value }) => value))),
  );
  return cells.flatMap((runs) => kinds.flatMap((kind, i) => oneRow(runs, kind, scatter[i]!)));
}

function kindsOf(runs: readonly RunResult[]): Kind[] {
  const kinds = new Map<string, Kind>();
  for (const run of runs) {
    if (run.status === "failed") continue;
    for (const { phase, window, mol_lost, basis } of run.phases) {
      kinds.set(JSON.stringify([window, phase, basis]), { phase, window, mol_lost, basis });
    }
  }
  return [...kinds.values()];
}

function rowsOf(runs: readonly RunResult[], kind: Kind): { run: RunDone; row: PhaseResult }[] {
  return runs.flatMap((run) => {
    if (run.status === "failed") return [];
    const row = run.phases.find(
      (one) => one.phase === kind.phase && one.window === kind.window && one.basis === kind.basis,
    );
    return row ? [{ run, row }] : [];
  });
}

function countedOf(runs: readonly RunResult[], kind: Kind) {
  return rowsOf(runs, kind).flatMap(({ run, row: { amount } }) =>
    "missing" in amount ? [] : [{ specimen: run.specimen, value: amount.value, terms: amount.terms }],
  );
}

function oneRow(runs: readonly RunResult[], kind: Kind, scatter: Scatter | null): AmountRow[] {
  const rows = rowsOf(runs, kind);
  if (rows.length === 0) return [];
  const counted = countedOf(runs, kind);
  const specimens = specimensOf(counted);
  const values = specimens.map(({ value }) => value);
  const { mix, curing, curing_d, age_d } = runs[0]!;
  const head = { mix, curing, curing_d, age_d, ...kind, n_specimens: specimens.length, n_runs: counted.length };
  const none = { amount_sd: null, u_random: null, u_shared: null, df: null, amount_lo95: null, amount_hi95: null };
  const flags = flagsOf(rows, kind.window);
  if (values.length === 0) {
    const codes = new Set(rows.flatMap(({ row }) => ("missing" in row.amount ? [row.amount.missing] : [])));
    const amount: Measured = { missing: codes.size === 1 ? [...codes][0]! : "runs-missing" };
    return [{ ...head, amount, ...none, flags }];
  }
  const value = mean(values);
  const amount_sd = values.length === 1 ? null : standardDeviation(values);
  const key = JSON.stringify([mix, curing, curing_d, age_d, kind.window, kind.phase]);
  const u = uncertaintyOfCell(specimens, { index: value, scatter, key });
  if (u === null) return [{ ...head, ...none, amount: { value, u: null, terms: [] }, amount_sd, flags }];
  const { u_random, u_shared, index_u, df, half, terms } = u;
  const amount: Measured = { value, u: index_u, terms };
  return [
    { ...head, amount, amount_sd, u_random, u_shared, df, amount_lo95: value - half, amount_hi95: value + half, flags },
  ];
}

/** What is said about the runs behind a mean concerns the mean too; notes do not. */
function flagsOf(rows: readonly { run: RunDone; row: PhaseResult }[], window: string): Flag[] {
  const files = new Map<FlagCode, string[]>();
  const missing: string[] = [];
  for (const { run, row } of rows) {
    if ("missing" in row.amount) missing.push(`${run.file} (${row.amount.missing})`);
    for (const { code, severity } of row.flags) {
      if (severity !== "note") files.set(code, [...(files.get(code) ?? []), run.file]);
    }
  }
  const carried = [...files]
    .filter(([code]) => Object.hasOwn(flagKinds, code))
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([code, names]) =>
      flag(code, `Flagged in ${names.length} of ${rows.length} runs: ${someNames(names)}.`, window),
    );
  const codes = new Set(rows.flatMap(({ row }) => ("missing" in row.amount ? [row.amount.missing] : [])));
  // Where all lack it for one reason, the missing number itself says which: no run has to be repeated.
  if (missing.length === 0 || (missing.length === rows.length && codes.size === 1)) return carried;
  const sentence = `${missing.length} of ${rows.length} runs have no amount: ${someNames(missing)}.`;
  return [flag("runs-missing", sentence, window), ...carried];
}
