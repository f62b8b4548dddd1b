import type { HydrateBounds } from "./plausibilityTypes.ts";

/** Phase that a binder's composition bounds. */
export type BoundedPhase = Exclude<keyof HydrateBounds, "bound_water">;

const names: readonly string[] = ["ettringite", "monosulfate", "ah3", "straetlingite"] satisfies BoundedPhase[];

/** Whether a binder's composition says how much of a phase there can be at most. */
export function isBounded(phase: string): phase is BoundedPhase {
  return names.includes(phase);
}
