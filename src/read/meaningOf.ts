import type { Unit } from "./parseUnit.ts";
import { type NameMeaning, recogniseName } from "./recogniseName.ts";
import type { Quantity, UnderstoodColumn } from "./types.ts";

/** What name and unit of a column say together. */
export interface Meaning extends UnderstoodColumn {
  /** Unit its numbers are converted with; null where none is known. */
  known: Unit | null;
  /** The name says that it is the sample's own. */
  ofSample: boolean;
  /** The name says `loss`, which grows while the mass falls, or `change`. */
  change: "loss" | "change" | null;
}

/** Quantities that a run can be made of, the better ones first. */
export const temperatureQuantities: Quantity[] = [
  "temperature",
  "furnace-temperature",
  "reference-temperature",
  "programme-temperature",
];
export const massQuantities: Quantity[] = [
  "mass",
  "mass-change",
  "mass-percent",
  "mass-fraction",
  "mass-change-percent",
];

type Said = Pick<Meaning, "quantity" | "by" | "ofSample" | "change" | "reason">;

/** Meaning by name and unit; the unit decides where the name is a mere letter or says nothing. */
export function meaningOf(name: string, unit: Unit | null): Said {
  const said = name === "" ? null : recogniseName(name);
  // "Setpoint" is a temperature only in a unit of temperature.
  const named = said?.needsUnit === true && unit?.dimension !== "temperature" ? null : said;
  const nothing = { ofSample: false, change: null };
  if (named === null) {
    if (unit === null) return { quantity: "other", by: "none", ...nothing };
    return { quantity: ofUnit(unit), by: "unit", ...nothing };
  }
  const details = { ofSample: named.of === "sample", change: named.change ?? null };
  if (unit !== null && !agree(named, unit)) {
    if (named.weak || unit.dimension === "derivative" || unit.dimension === "heat-flow") {
      return { quantity: ofUnit(unit), by: "unit", ...nothing };
    }
    return { quantity: "other", by: "none", ...nothing, reason: "its name and its unit contradict each other" };
  }
  return { quantity: ofName(named, unit), by: "name", ...details };
}

function agree(named: NameMeaning, unit: Unit): boolean {
  if (named.quantity === "mass") return ["mass", "percent", "fraction", "none"].includes(unit.dimension);
  return (named.quantity !== "temperature" && named.quantity !== "time") || named.quantity === unit.dimension;
}

function ofUnit({ dimension }: Unit): Quantity {
  if (dimension === "percent") return "mass-percent";
  if (dimension === "none") return "other";
  return dimension === "fraction" ? "mass-fraction" : dimension;
}

function ofName(named: NameMeaning, unit: Unit | null): Quantity {
  if (named.quantity === "temperature") {
    return named.of === undefined || named.of === "sample" ? "temperature" : `${named.of}-temperature`;
  }
  if (named.quantity !== "mass") return named.quantity;
  const relative = unit === null ? named.relative === true : unit.dimension !== "mass";
  if (named.change !== undefined) return relative ? "mass-change-percent" : "mass-change";
  if (!relative) return "mass";
  return unit?.dimension === "percent" ? "mass-percent" : "mass-fraction";
}
