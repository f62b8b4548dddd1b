import type { Margin } from "../campaign/decisions.ts";

/** The margin of a quantity: its own, otherwise the one for all; null where none is stated. */
export function marginFor(quantity: string, margins: readonly Margin[]): Margin | null {
  return (
    margins.find((margin) => margin.quantity === quantity) ?? margins.find((margin) => margin.quantity === null) ?? null
  );
}
