import { type Flag, flag } from "../flags.ts";
import type { RunLosses } from "../losses/types.ts";
import { amountBases } from "../phases/amountBases.ts";
import { exceededSentence } from "../phases/exceededSentence.ts";
import { isBounded } from "../phases/isBounded.ts";
import { measureAmounts, type WindowAmount } from "../phases/measureAmounts.ts";
import type { BudgetContext } from "../phases/measureIndex.ts";
import { plausibility } from "../phases/plausibility.ts";
import type { AmountsGiven, Exceeded } from "../phases/plausibilityTypes.ts";
import { type Reference, referenceMass } from "../phases/referenceMass.ts";
import type { Mix, PhaseResult } from "../phases/types.ts";
import { WATER_GONE_C } from "../phases/waterGone.ts";
import { waterRatioFlags } from "../phases/waterRatioFlags.ts";
import type { Role, SettledProtocol, WindowResult } from "./types.ts";

/** A run up to its indices. */
export interface IndexedRun {
  runLosses: RunLosses;
  ignited: Reference | { missing: string };
  protocol: SettledProtocol;
  mix: Mix | null;
  role: Role;
  windows: readonly WindowResult[];
}

/**
 * The phases of one run on every basis, held against what the binder can give. A blank or the run of a reference substance
 * has none; the anhydrous binder has no paste, the aggregate no binder.
 *
 * @returns `windowFlags`: what the comparison says about windows, each with its window's name.
 */
export function phaseResults(context: BudgetContext, run: IndexedRun): { phases: PhaseResult[]; windowFlags: Flag[] } {
  const { role, mix } = run;
  if (role === "blank" || role === "check") return { phases: [], windowFlags: [] };
  const amounts = amountsOn(context, run, "ignited");
  const exceeded = role === "binder" || role === "aggregate" ? [] : exceededBy(amounts, run);
  const rows = amounts.flatMap(({ amount, flags, ...claim }) => {
    const above = exceeded.filter(({ quantity }) => quantity === claim.phase);
    const all = [
      ...flags,
      ...above.map((one) => flag("above-maximum", exceededSentence(one, "ignited"), claim.window)),
    ];
    return basesFor(role)(amountBases(amount, mix)).map(
      ({ basis, amount }): PhaseResult => ({
        ...claim,
        basis,
        amount,
        flags: [...all, ...waterRatioFlags(amount, mix, claim.window)],
      }),
    );
  });
  const initial = run.protocol.basis === "initial" ? amountsOn(context, run, "initial") : [];
  return {
    phases: [...rows, ...initial.map((one): PhaseResult => ({ ...one, basis: "initial" }))],
    windowFlags: waterFlags(run, exceeded),
  };
}

function amountsOn(context: BudgetContext, run: IndexedRun, basis: "ignited" | "initial"): WindowAmount[] {
  const { runLosses, ignited, protocol, mix, windows } = run;
  if (runLosses.losses.every(({ window }) => window.amount === undefined)) return [];
  const known = new Map(windows.map(({ window, index_step }) => [window, index_step]));
  return measureAmounts(context, {
    losses: runLosses.losses,
    reference: referenceMass(basis, { ignited, initial: runLosses.initial, mix: null }),
    corrections: protocol.corrections ?? {},
    mix,
    // Taken on the same reference already.
    ...(protocol.basis === basis ? { stepIndex: ({ window }) => known.get(window.name)! } : {}),
  });
}

function basesFor(role: Role): (rows: ReturnType<typeof amountBases>) => ReturnType<typeof amountBases> {
  if (role === "aggregate") return (rows) => rows.filter(({ basis }) => basis === "ignited");
  if (role === "binder") return (rows) => rows.filter(({ basis }) => basis === "ignited" || basis === "binder");
  return (rows) => rows;
}

function exceededBy(amounts: readonly WindowAmount[], { mix, windows, protocol }: IndexedRun): Exceeded[] {
  if (mix === null) return [];
  const given: AmountsGiven = {};
  for (const { phase, amount } of amounts) {
    if (isBounded(phase) && "value" in amount) given[phase] = { value: amount.value, u: amount.u };
  }
  const water = protocol.basis === "ignited" ? waterIn(windows) : null;
  if (water) given.bound_water = water;
  return Object.keys(given).length === 0 ? [] : (plausibility(mix, given)?.exceeded ?? []);
}

/** The largest loss of water that a window of the run shows. */
function waterIn(windows: readonly WindowResult[]): { value: number; u: number | null } | null {
  let most: { value: number; u: number | null } | null = null;
  for (const { to_C, index } of windows) {
    if (to_C > WATER_GONE_C || "missing" in index) continue;
    if (most === null || index.value > most.value) most = { value: index.value, u: index.u };
  }
  return most;
}

/** For every window that alone shows more water than the binder can bind. */
function waterFlags({ windows }: IndexedRun, exceeded: readonly Exceeded[]): Flag[] {
  const water = exceeded.find(({ quantity }) => quantity === "bound_water");
  if (!water) return [];
  return windows.flatMap(({ window, to_C, index }) => {
    if (to_C > WATER_GONE_C || "missing" in index || index.value <= water.maximum) return [];
    const sentence = exceededSentence({ ...water, value: index.value, u: index.u }, "ignited");
    return [flag("above-maximum", sentence, window)];
  });
}
