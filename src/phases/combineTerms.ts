import type { Term } from "../measured.ts";

/**
 * Standard uncertainty from signed terms: equal keys are one error and add with their signs, different keys are
 * independent and add in squares (JCGM 100:2008, 5.2.2 and 5.1.2).
 */
export function combineTerms(terms: readonly Term[]): number {
  const byKey = new Map<string, number>();
  for (const { key, effect } of terms) byKey.set(key, (byKey.get(key) ?? 0) + effect);
  let squares = 0;
  for (const effect of byKey.values()) squares += effect * effect;
  return Math.sqrt(squares);
}
