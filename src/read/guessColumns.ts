import type { Behaviour } from "./behaviourOf.ts";
import { type Meaning, massQuantities, temperatureQuantities } from "./meaningOf.ts";
import type { CellKind, Confidence, Quantity } from "./types.ts";

/** The least a run warms, °C or K. */
const leastWarming = 50;

/**
 * Fills in what the headings leave open by how the numbers run: temperature climbs, from room temperature on; mass falls; time
 * grows in every row; a clock is time. Only columns without a known name and unit are guessed. All limits are common practice
 * of the trade, without a source, and every guess is told.
 */
export function guessColumns(columns: Meaning[], cells: CellKind[], behaviours: (() => Behaviour)[]): Meaning[] {
  const guessed = columns.map((column) => ({ ...column }));
  const has = (quantities: Quantity[]): boolean => guessed.some(({ quantity }) => quantities.includes(quantity));
  const open = (): number[] =>
    guessed.flatMap(({ by, quantity, unit, reason }, i) => {
      const isNumber = cells[i] === "number" && behaviours[i]!().count > 1;
      return by === "none" && quantity === "other" && unit === "" && reason === undefined && isNumber ? [i] : [];
    });
  const take = (i: number, quantity: Quantity, reason: string, confidence: Confidence): void => {
    Object.assign(guessed[i]!, { quantity, by: "behaviour", reason, confidence });
  };
  cells.forEach((kind, i) => {
    const isOpen = guessed[i]!.by === "none" && (kind === "date" || kind.endsWith("clock"));
    if (isOpen && !has(["time"])) take(i, "time", "it holds times of the day", "high");
  });
  if (has(temperatureQuantities) && has(massQuantities) && has(["time"])) return guessed;
  for (const i of open()) {
    if (behaviours[i]!().counts && open().length > 2) take(i, "index", "it counts 1, 2, 3, …", "high");
  }
  if (!has(temperatureQuantities)) {
    const climbing = open().filter((i) => climbs(behaviours[i]!()));
    const fromRoom = climbing.filter((i) => startsAtRoom(behaviours[i]!()));
    const [best, rival] = fromRoom.length > 0 ? fromRoom : climbing;
    if (best !== undefined && rival === undefined) {
      const { first, max } = behaviours[best]!();
      take(best, "temperature", `it climbs from ${first} to ${max}`, fromRoom.length > 0 ? "high" : "medium");
    } else if (best !== undefined) {
      for (const i of fromRoom.length > 0 ? fromRoom : climbing) take(i, "temperature", "it climbs", "low");
    }
  }
  if (!has(massQuantities)) {
    const falling = open().filter((i) => behaviours[i]!().trend < -0.5);
    for (const i of falling) {
      const { first, last } = behaviours[i]!();
      take(i, "mass", `it falls from ${first} to ${last}`, falling.length === 1 ? "medium" : "low");
    }
  }
  if (!has(["time"])) {
    const growing = open().filter((i) => behaviours[i]!().grows);
    if (growing.length === 1) take(growing[0]!, "time", "it grows in every row", "medium");
  }
  return guessed;
}

function climbs({ first, max, min, trend }: Behaviour): boolean {
  return trend > 0.8 && max - first > leastWarming && min > -200 && max < 2000;
}

/** Room temperature in °C or K; an exact zero is a time. */
function startsAtRoom({ first }: Behaviour): boolean {
  return (first > 10 && first < 60) || (first > 283 && first < 333);
}
