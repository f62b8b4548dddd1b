import { figureLabel } from "./figureLabel.ts";

/** Name of a window or property on an axis; `length_change` is read as two words. */
export function quantityWords(quantity: string, most: number): string {
  return figureLabel(quantity.replaceAll("_", " "), most);
}

/** A unit on an axis; one that is a quotient stands in brackets (ISO 80000-1), and microstrain is one (µm/m). */
export function unitWords(unit: string): string {
  const label = figureLabel(unit === "microstrain" ? "µm/m" : unit, 16);
  return label.includes("/") && !label.startsWith("(") ? `(${label})` : label;
}
