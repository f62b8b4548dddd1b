import { zeroCelsius } from "./constants.ts";
import type { Programme } from "./types.ts";

/** A stretch of the programme with one rate; a hold has the rate zero. */
export interface Leg {
  /** Time at its start, min since the start of the programme. */
  from_min: number;
  to_min: number;
  /** Temperature at its start, K. */
  from_K: number;
  to_K: number;
  /** Signed, K/min. */
  rate: number;
}

/**
 * The temperature programme as stretches of one rate, heating and holds apart.
 *
 * @throws {RangeError} A rate that is not positive, a temperature below absolute zero, a negative hold, or no stretch at all.
 */
export function programmeLegs(programme: Programme): Leg[] {
  const legs: Leg[] = [];
  let minute = 0;
  let kelvin = toKelvin(programme.start_C, "start_C");
  programme.segments.forEach((segment, i) => {
    const { rate_K_per_min, hold_min = 0 } = segment;
    const target = toKelvin(segment.to_C, `segments[${i}].to_C`);
    if (target !== kelvin) {
      if (!(rate_K_per_min > 0 && Number.isFinite(rate_K_per_min))) {
        throw new RangeError(`Give a positive rate at segments[${i}].rate_K_per_min, not ${rate_K_per_min}`);
      }
      const rate = Math.sign(target - kelvin) * rate_K_per_min;
      const end = minute + (target - kelvin) / rate;
      legs.push({ from_min: minute, to_min: end, from_K: kelvin, to_K: target, rate });
      minute = end;
      kelvin = target;
    }
    if (!(hold_min >= 0 && Number.isFinite(hold_min))) {
      throw new RangeError(`Give a hold of zero or more minutes at segments[${i}].hold_min, not ${hold_min}`);
    }
    if (hold_min > 0) {
      legs.push({ from_min: minute, to_min: minute + hold_min, from_K: kelvin, to_K: kelvin, rate: 0 });
      minute += hold_min;
    }
  });
  if (legs.length === 0)
    throw new RangeError("Give a programme that heats or holds: it has no segment with a duration");
  return legs;
}

function toKelvin(celsius: number, field: string): number {
  const kelvin = celsius + zeroCelsius;
  if (!(kelvin > 0 && Number.isFinite(kelvin))) {
    throw new RangeError(`Give a temperature above absolute zero at programme.${field}, not ${celsius}`);
  }
  return kelvin;
}
