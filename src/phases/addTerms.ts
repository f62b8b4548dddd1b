import type { Term } from "../measured.ts";

/** A budget and what it is multiplied by. */
export interface ScaledTerms {
  terms: readonly Term[];
  factor: number;
}

/**
 * Budget of a sum of numbers, each times its factor: equal keys are one error and their signed effects add
 * (JCGM 100:2008, 5.2.2), so that what two numbers share cancels in their difference.
 */
export function addTerms(budgets: readonly ScaledTerms[]): Term[] {
  const byKey = new Map<string, Term>();
  for (const { terms, factor } of budgets) {
    for (const { cause, effect, key } of terms) {
      const known = byKey.get(key);
      // + 0: an effect of −0 would not survive JSON.
      if (known) known.effect += factor * effect;
      else byKey.set(key, { cause, effect: factor * effect + 0, key });
    }
  }
  return [...byKey.values()];
}
