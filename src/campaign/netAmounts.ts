import { type Flag, flag } from "../flags.ts";
import type { Measured } from "../measured.ts";
import { addTerms } from "../phases/addTerms.ts";
import { amountBases } from "../phases/amountBases.ts";
import { belowDetection } from "../phases/belowDetection.ts";
import { combineTerms } from "../phases/combineTerms.ts";
import { detectionLimit } from "../phases/detectionLimit.ts";
import { phasePerGas } from "../phases/phasePerGas.ts";
import type { Mix, PhaseResult } from "../phases/types.ts";
import { waterRatioFlags } from "../phases/waterRatioFlags.ts";
import type { Role, RunDone, RunResult } from "../protocol/types.ts";
import { meanTerms } from "./specimensOf.ts";

/**
 * Adds to every specimen the amounts net of what the anhydrous binder and the aggregate of its mix lose in the same window, each by
 * its own runs: net = gross − binder/(1 + s) − aggregate·s/(1 + s) per 100 g of ignited mass, with s the ignited sand per
 * ignited binder. What the runs share (calibration, buoyancy) cancels by its key.
 *
 * @returns The runs in their order; a run whose mix has no such runs stays as it is.
 */
export function netAmounts(runs: readonly RunResult[], mixes: readonly Mix[]): RunResult[] {
  const table = new Map(mixes.map((mix) => [mix.mix, mix]));
  const byRole = new Map<string, RunDone[]>();
  const keyOf = (role: Role, mix: string | null) => JSON.stringify([role, mix]);
  for (const run of runs) {
    if (run.status === "failed" || (run.role !== "binder" && run.role !== "aggregate")) continue;
    const key = keyOf(run.role, run.mix);
    byRole.set(key, [...(byRole.get(key) ?? []), run]);
  }
  const others = (role: Role, mix: string | null): RunDone[] => byRole.get(keyOf(role, mix)) ?? [];
  return runs.map((run) => {
    if (run.status === "failed" || (run.role !== "specimen" && run.role !== "control")) return run;
    const gross = run.phases.filter(({ basis }) => !basis.endsWith("-net"));
    const binder = run.mix === null ? [] : others("binder", run.mix);
    const ownAggregate = run.mix === null ? [] : others("aggregate", run.mix);
    // One sand may serve all mixes: its run then names none.
    const aggregate = ownAggregate.length > 0 ? ownAggregate : others("aggregate", null);
    const mix = (run.mix === null ? null : table.get(run.mix)) ?? null;
    const sand = mix?.sand_binder_ignited ?? null;
    const mortar = sand !== null && sand > 0;
    if (binder.length === 0 && (aggregate.length === 0 || (!mortar && ownAggregate.length === 0))) return run;
    const rows = gross
      .filter(({ basis }) => basis === "ignited")
      .flatMap((row) => netRows(row, { binder, aggregate: mortar || sand === null ? aggregate : [], mix }));
    return { ...run, phases: [...gross, ...rows] };
  });
}

function netRows(
  row: PhaseResult,
  { binder, aggregate, mix }: { binder: RunDone[]; aggregate: RunDone[]; mix: Mix | null },
): PhaseResult[] {
  const { phase, window, mol_lost } = row;
  const ofBinder = meanAmount(binder, row);
  const ofAggregate = meanAmount(aggregate, row);
  const amount = netOf(row.amount, { ofBinder, ofAggregate, mix });
  const flags = [
    ...row.flags.filter(({ code }) => code !== "below-detection"),
    ...partialFlags(row, { ofBinder, ofAggregate, mix }),
    ...belowDetection(amount, { what: `${phase}, net`, window }),
  ];
  return amountBases(amount, mix).map(({ basis, amount }) => ({
    ...{ phase, window, mol_lost, amount },
    flags: [...flags, ...waterRatioFlags(amount, mix, window)],
    basis: `${basis}-net` as const,
  }));
}

/** Mean over runs of the amount in one window per 100 g of ignited mass; null where there are no runs. */
function meanAmount(runs: readonly RunDone[], { phase, window }: PhaseResult): Measured | null {
  const amounts = runs.flatMap(({ phases }) =>
    phases.filter((row) => row.basis === "ignited" && row.phase === phase && row.window === window),
  );
  if (amounts.length === 0) return null;
  const values: number[] = [];
  for (const { amount } of amounts) {
    if ("missing" in amount) return amount;
    values.push(amount.value);
  }
  const terms = meanTerms(amounts.map(({ amount }) => ("missing" in amount ? [] : amount.terms)));
  return { value: values.reduce((sum, value) => sum + value, 0) / values.length, u: combineTerms(terms), terms };
}

interface Own {
  ofBinder: Measured | null;
  ofAggregate: Measured | null;
  mix: Mix | null;
}

function netOf(gross: Measured, { ofBinder, ofAggregate, mix }: Own): Measured {
  const sand = mix?.sand_binder_ignited ?? null;
  if (ofAggregate !== null && sand === null) return { missing: "no-sand-ratio" };
  const s = sand ?? 0;
  const binder = ofBinder ?? { value: 0, u: 0, terms: [] };
  const aggregate = ofAggregate ?? { value: 0, u: 0, terms: [] };
  for (const part of [gross, binder, aggregate]) if ("missing" in part) return part;
  if ("missing" in gross || "missing" in binder || "missing" in aggregate) return gross;
  // d(net)/ds, so that the error of s is one error with the one of the basis.
  const bySand = ((binder.value - aggregate.value) / (1 + s) ** 2) * (mix?.u_sand_binder_ignited ?? 0);
  const terms = addTerms([
    { terms: gross.terms, factor: 1 },
    { terms: binder.terms, factor: -1 / (1 + s) },
    { terms: aggregate.terms, factor: -s / (1 + s) },
    { terms: bySand === 0 ? [] : [{ cause: "sand", effect: bySand, key: `mix:${mix?.mix}:sand` }], factor: 1 },
  ]);
  const value = gross.value - binder.value / (1 + s) - (aggregate.value * s) / (1 + s);
  return { value, u: combineTerms(terms), terms };
}

function partialFlags({ phase, window, mol_lost }: PhaseResult, { ofBinder, ofAggregate, mix }: Own): Flag[] {
  const flags: Flag[] = [];
  const mortar = (mix?.sand_binder_ignited ?? 0) > 0;
  if (ofAggregate !== null && (mix?.sand_binder_ignited ?? null) === null) {
    const sentence = `Taking off the aggregate needs the ignited sand-to-binder ratio of the mix ${mix?.mix ?? "(none named)"}.`;
    flags.push(flag("no-sand-ratio", sentence, window));
  }
  if (ofBinder === null) flags.push(flag("net-partial", `Net of the aggregate only: no run of the binder.`, window));
  if (mortar && ofAggregate === null) {
    flags.push(flag("net-partial", `Net of the binder only: no run of the aggregate.`, window));
  }
  if (ofBinder !== null && "value" in ofBinder && isWater(phase, mol_lost)) {
    const limit = detectionLimit(ofBinder.terms);
    if (limit !== null && ofBinder.value > limit) {
      const sentence = `The anhydrous binder loses the water of ${ofBinder.value.toFixed(2)} g of ${phase} per 100 g in the window ${window}.`;
      flags.push(flag("binder-water", sentence, window));
    }
  }
  return flags;
}

function isWater(phase: string, mol_lost: number): boolean {
  try {
    return phasePerGas({ phase, mol_lost }).gas === "H2O";
  } catch {
    // A phase with both gases, of which the row does not say which one.
    return false;
  }
}
