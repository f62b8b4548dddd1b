import type { Term } from "../measured.ts";
import { mean } from "../numerics/mean.ts";

/** One index of one run, with its budget. */
export interface RunIndex {
  specimen: string;
  value: number;
  terms: readonly Term[];
}

/** A specimen: the mean of its replicates. */
export interface Specimen {
  specimen: string;
  value: number;
  /** Budget of the mean: effects averaged by key, since equal keys are the same error. */
  terms: Term[];
}

/** Replicates of one specimen are averaged first: they are aliquots, not specimens. In the order of first appearance. */
export function specimensOf(indices: readonly RunIndex[]): Specimen[] {
  const groups = new Map<string, RunIndex[]>();
  for (const index of indices) groups.set(index.specimen, [...(groups.get(index.specimen) ?? []), index]);
  return [...groups].map(([specimen, group]) => ({
    specimen,
    value: mean(group.map(({ value }) => value)),
    terms: meanTerms(group.map(({ terms }) => terms)),
  }));
}

/** Budget of a mean of numbers that have these budgets. */
export function meanTerms(budgets: readonly (readonly Term[])[]): Term[] {
  const byKey = new Map<string, Term>();
  for (const { cause, effect, key } of budgets.flat()) {
    const known = byKey.get(key);
    byKey.set(key, { cause, effect: (known?.effect ?? 0) + effect / budgets.length, key });
  }
  return [...byKey.values()];
}
