import { ageText } from "../campaign/ageText.ts";
import type { Margin, Requirement } from "../campaign/decisions.ts";
import { someNames } from "../campaign/someNames.ts";
import { nearestName } from "../nearestName.ts";
import { CompareError } from "./compareError.ts";
import { propertyUnit } from "./propertyUnits.ts";
import type { ComparedCell } from "./types.ts";

/** The age that most standards for strength report, days. */
const USUAL_AGE_MIN = 28 * 1440;

/**
 * An age that was asked for, whole minutes; without one 28 d where a cell has it, otherwise the latest.
 *
 * @throws CompareError where no cell has it.
 */
export function chosenAge(asked_d: number | undefined, ages: readonly number[], what: string): number | null {
  if (asked_d === undefined) return ages.includes(USUAL_AGE_MIN) ? USUAL_AGE_MIN : (ages.at(-1) ?? null);
  const minutes = Math.round(asked_d * 1440);
  if (ages.includes(minutes)) return minutes;
  const there = someNames(ages.map(ageText), { most: 20 });
  throw new CompareError(`No cell has the ${what} ${ageText(minutes)}. There are: ${there || "no ages at all"}.`);
}

function checkQuantity(quantity: string, cells: readonly ComparedCell[], what: string): ComparedCell {
  const found = cells.find((cell) => cell.quantity === quantity);
  if (found) return found;
  const known = [...new Set(cells.map((cell) => cell.quantity))];
  const nearest = nearestName(quantity, known);
  const help = nearest === null ? "" : `Did you mean ${nearest}? `;
  throw new CompareError(
    `The ${what} names ${JSON.stringify(quantity)}, which is no window and no property here. ${help}There are: ${someNames(known, { most: 20 })}.`,
  );
}

/**
 * A margin in the unit of its quantity.
 *
 * @throws CompareError where it is none, or for nothing that is there.
 */
export function checkMargin(margin: Margin, cells: readonly ComparedCell[]): Margin {
  const { quantity, kind, size } = margin;
  if (!(size > 0 && Number.isFinite(size)) || (kind === "share" && size >= 1)) {
    const shown = kind === "share" ? `${100 * size} %` : `${size}`;
    throw new CompareError(`Give a margin above 0${kind === "share" ? " and below 100 %" : ""}, not ${shown}.`);
  }
  if (quantity === null) {
    if (kind === "share") return margin;
    throw new CompareError("A margin that is no percentage belongs to one quantity: name it, such as strength=3.");
  }
  const cell = checkQuantity(quantity, cells, "margin");
  if (kind === "share") return margin;
  const factor = conversion(margin.unit ?? cell.unit, cell);
  if (factor !== null) return { ...margin, size: size * factor, unit: cell.unit };
  throw new CompareError(
    `The margin for ${quantity} is in ${margin.unit}, which does not convert into ${cell.unit}: give it in ${cell.unit}.`,
  );
}

/** Factor from a unit to that of a cell; null where it does not convert. */
function conversion(unit: string, cell: ComparedCell): number | null {
  if (unit === "" || unit === cell.unit) return 1;
  if (cell.kind !== "property") return null;
  const own = propertyUnit(cell.unit, { length: true });
  const given = propertyUnit(unit, { length: own.kind === "strain" });
  return own.kind === given.kind ? given.factor / own.factor : null;
}

/**
 * A requirement in the unit of its quantity.
 *
 * @throws CompareError where it does not convert, or is for nothing that is there.
 */
export function checkRequirement(requirement: Requirement, cells: readonly ComparedCell[]): Requirement {
  const { quantity, unit, value } = requirement;
  const cell = checkQuantity(quantity, cells, "requirement");
  const factor = conversion(unit, cell);
  if (factor !== null) return { ...requirement, unit: cell.unit, value: value * factor };
  throw new CompareError(
    `The requirement for ${quantity} is in ${unit}, which does not convert into ${cell.unit}: give it in ${cell.unit}.`,
  );
}
