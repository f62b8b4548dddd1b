import type { Behaviour } from "./behaviourOf.ts";
import { type Meaning, temperatureQuantities } from "./meaningOf.ts";
import { parseUnit } from "./parseUnit.ts";
import type { CellKind, Confidence, Quantity } from "./types.ts";

/** A unit that was guessed, with what follows from it. */
interface Guess {
  unit: string;
  reason: string;
  confidence: Confidence;
  quantity?: Quantity;
}

/**
 * Gives columns of temperature, mass and time without a unit the one their numbers suggest. All limits are common practice of
 * the trade, without a source, and every guess is told. A wrong guess between mg and g changes no index, only masses.
 */
export function guessUnits(columns: Meaning[], cells: CellKind[], behaviours: (() => Behaviour)[]): Meaning[] {
  const warm = columns.findIndex(({ quantity }) => temperatureQuantities.includes(quantity));
  return columns.map((column, i) => {
    const { quantity, unit, known, reason, confidence } = column;
    if (known !== null || unit !== "") return column;
    // A fraction has no unit: where it starts near one nothing is guessed.
    const isFraction = quantity === "mass-fraction" && Math.abs(behaviours[i]!().first - 1) < 0.1;
    if (isFraction) return { ...column, known: parseUnit("g/g") };
    const guess = temperatureQuantities.includes(quantity)
      ? ofTemperature(behaviours[i]!())
      : quantity === "mass" || quantity === "mass-fraction"
        ? ofMass(behaviours[i]!())
        : quantity === "mass-change-percent"
          ? { unit: "%", reason: "a relative change without a unit", confidence: "medium" as const }
          : quantity === "mass-change"
            ? ofChange(behaviours[i]!())
            : quantity === "time" && warm >= 0
              ? ofTime(cells[i]!, behaviours[i]!(), behaviours[warm]!())
              : null;
    if (guess === null) return column;
    const surest = confidence === undefined ? guess.confidence : weaker(confidence, guess.confidence);
    const why = `unit ${guess.unit}, since ${guess.reason}`;
    return {
      ...column,
      quantity: guess.quantity ?? quantity,
      known: parseUnit(guess.unit),
      reason: reason === undefined ? why : `${reason}; ${why}`,
      confidence: surest,
    };
  });
}

function weaker(a: Confidence, b: Confidence): Confidence {
  const order: Confidence[] = ["low", "medium", "high"];
  return order[Math.min(order.indexOf(a), order.indexOf(b))]!;
}

function ofTemperature({ first }: Behaviour): Guess {
  const reason = `it starts at ${first}`;
  if (first >= 283 && first < 333)
    return { unit: "K", reason: `${reason}, room temperature in kelvin`, confidence: "medium" };
  return { unit: "°C", reason, confidence: first > -10 && first < 60 ? "high" : "low" };
}

function ofMass({ first, max, min }: Behaviour): Guess {
  const reason = `it starts at ${first}`;
  if (Math.abs(first - 100) <= 1 && min > -5)
    return { unit: "%", reason, confidence: "medium", quantity: "mass-percent" };
  if (Math.abs(first - 1) <= 0.01 && max < 1.05 && min > -0.05) {
    return { unit: "g/g", reason, confidence: "medium", quantity: "mass-fraction" };
  }
  if (first > 0 && first < 0.5) return { unit: "g", reason, confidence: "low" };
  return { unit: "mg", reason, confidence: first >= 2 && first < 500 ? "medium" : "low" };
}

function ofChange({ max, min }: Behaviour): Guess {
  return { unit: "mg", reason: `it runs from ${min} to ${max}`, confidence: "low" };
}

/** More per unit of time than any furnace heats in an hour, °C. */
const FASTEST = 1e6;

function ofTime(kind: CellKind, { max, min }: Behaviour, warm: Behaviour): Guess | null {
  const perUnit = (warm.max - warm.min) / Math.max(1e-9, max - min);
  // A temperature such as 1e308 somewhere: no unit makes a heating of that.
  if (!(perUnit <= FASTEST)) return null;
  if (kind === "short-clock") {
    // Written as min:s or h:min: the nearer to 10 K/min.
    const asMinutes = perUnit * 60;
    const unit = asMinutes < 77 ? "min:s" : "h:min";
    return {
      unit,
      reason: `the run then heats at ${rate(unit === "min:s" ? asMinutes : perUnit)} K/min`,
      confidence: "medium",
    };
  }
  if (kind !== "number") return null;
  // Thermobalances heat at 1–50 K/min: of s, min and h the one nearest to 10 K/min on a logarithmic scale.
  const [unit, perMinute] = perUnit < 1.3 ? ["s", 60 * perUnit] : perUnit < 77 ? ["min", perUnit] : ["h", perUnit / 60];
  return { unit, reason: `the run then heats at ${rate(perMinute)} K/min`, confidence: "medium" };
}

function rate(value: number): string {
  return String(Number(value.toPrecision(2)));
}
