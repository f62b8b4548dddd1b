import type { Meaning } from "./meaningOf.ts";

/**
 * The columns with masses told apart by their numbers: a share starts at 100 % or a change at 0, a mass at its full value or,
 * on a tared balance, at 0. Names alone don't say it: "TG/%" is written both ways.
 */
export function refineMass(columns: Meaning[], values: Float64Array[]): Meaning[] {
  return columns.map((column, i) => {
    const { quantity, by, known } = column;
    if (by === "override" || !quantity.startsWith("mass")) return column;
    const { first, min, max } = rangeOf(values[i]!);
    const range = max - min;
    const full = known?.dimension === "fraction" ? 1 : 100;
    const startsFull = Math.abs(first - full) < 0.1 * full;
    const startsAtNothing = Math.abs(first) <= 0.02 * range && Math.abs(first) < 0.1 * full;
    const falls = min < 0 && max - first < 0.2 * range;
    if (quantity === "mass-change-percent" && startsFull) {
      const left = known?.dimension === "fraction" ? "mass-fraction" : "mass-percent";
      return { ...column, quantity: left, reason: `it starts at ${first}, so it is what is left`, confidence: "high" };
    }
    if ((quantity === "mass-percent" || quantity === "mass-fraction") && startsAtNothing && falls) {
      const reason = `it starts at ${first} and falls, so it is a change`;
      return { ...column, quantity: "mass-change-percent", change: "change", reason, confidence: "high" };
    }
    if (quantity === "mass" && startsAtNothing && falls) {
      const reason = `it starts at ${first} and falls below zero, so it is a change`;
      return { ...column, quantity: "mass-change", change: "change", reason, confidence: "high" };
    }
    if (column.change === "change" && startsAtNothing && min >= -0.02 * range && max > 0.01 * full) {
      const reason = `it grows from ${first} to ${max}, so it is written as a loss`;
      return { ...column, change: "loss", reason, confidence: "medium" };
    }
    return column;
  });
}

/** First, least and largest of the numbers that are there. */
function rangeOf(values: Float64Array): { first: number; min: number; max: number } {
  let [first, min, max] = [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!;
    // Comparisons with NaN are false.
    if (value < min) min = value;
    if (value > max) max = value;
    if (Number.isNaN(first)) first = value;
  }
  return { first, min, max };
}
