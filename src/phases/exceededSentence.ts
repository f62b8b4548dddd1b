import type { Exceeded, HydrateBounds, PlausibilityBasis } from "./plausibilityTypes.ts";

const labels: Record<keyof HydrateBounds, string> = {
  ettringite: "Ettringite",
  monosulfate: "Monosulfate",
  ah3: "AH3",
  straetlingite: "Strätlingite",
  bound_water: "Bound water",
};

/** The sentence of the flag `above-maximum`, with both numbers. */
export function exceededSentence({ quantity, value, u, maximum }: Exceeded, basis: PlausibilityBasis): string {
  const within = u !== null && value - 1.96 * u <= maximum ? ", though by no more than its uncertainty" : "";
  return `${labels[quantity]}: ${value.toFixed(2)} g per 100 g (${basis}) is above the maximum of ${maximum.toFixed(2)} that this binder can give${within}.`;
}
