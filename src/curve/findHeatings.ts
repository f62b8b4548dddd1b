import type { Run } from "../read/types.ts";

/** A stretch of rising temperature, as indices of readings. */
export interface Heating {
  first: number;
  /** One past the last reading. */
  end: number;
}

/** A fall by more than this ends a heating, °C: more than any overshoot of a furnace into an isothermal should be. */
const COOLING = 5;
/** A heating that goes on from where the last one stopped, within this, is the same one (overshoot), °C. */
const REJOIN = 30;

/**
 * Finds the stretches of rising temperature: a fall of more than 5 °C from the highest temperature ends one, a rise of
 * more than 5 °C from the lowest begins the next; stretches that continue each other within 30 °C are joined (an
 * overshoot into an isothermal). Single outlying temperatures do not end a heating: a median of five readings is judged.
 *
 * @returns In the order of measurement; empty where the temperature never rises by more than 5 °C.
 */
export function findHeatings(run: Pick<Run, "temperature">): Heating[] {
  const T = run.temperature;
  const found: Heating[] = [];
  let first = 0;
  let lowest = 0;
  let highest = 0;
  let rising = false;
  // Medians at the lowest and the highest reading so far.
  let bottom = T[0] ?? 0;
  let top = bottom;
  for (let i = 1; i < T.length; i++) {
    const t = medianOfFive(T, i);
    if (rising) {
      if (t >= top) {
        highest = i;
        top = t;
      } else if (t < top - COOLING) {
        found.push({ first, end: summit(T, highest) + 1 });
        rising = false;
        lowest = i;
        bottom = t;
      }
    } else if (t < bottom) {
      lowest = i;
      bottom = t;
    } else if (t > bottom + COOLING) {
      rising = true;
      // A furnace still warm from the last run cools first: the heating starts at the lowest reading.
      first = found.length === 0 && T[0]! <= bottom + COOLING ? 0 : lowest;
      highest = i;
      top = t;
    }
  }
  if (rising) found.push({ first, end: T.length });
  return join(T, found);
}

/** The highest reading beside the highest median. */
function summit(T: Float64Array, near: number): number {
  let best = near;
  for (let i = near - 2; i <= near + 2; i++) if ((T[i] ?? -Infinity) > T[best]!) best = i;
  return best;
}

function join(T: Float64Array, heatings: Heating[]): Heating[] {
  const joined: Heating[] = [];
  for (const heating of heatings) {
    const before = joined.at(-1);
    if (before === undefined) {
      joined.push({ ...heating });
      continue;
    }
    const top = T[before.end - 1]!;
    const continues = T[heating.first]! >= top - REJOIN;
    if (continues && T[heating.end - 1]! > top) before.end = heating.end;
    // A swing about an isothermal, below the overshoot: the rise that leaves it is judged against the overshoot.
    else if (!(continues && T[heating.end - 1]! >= top - REJOIN)) joined.push({ ...heating });
  }
  return joined;
}

/** Median of the readings i−2 … i+2; at an end of the run the reading itself. */
function medianOfFive(T: Float64Array, i: number): number {
  const c = T[i]!;
  const before = T[i - 1];
  const after = T[i + 1];
  if (before === undefined || after === undefined) return c;
  // Nearly always the reading lies between its neighbours: then no sorting is needed.
  if ((before <= c && c <= after) || (before >= c && c >= after)) return c;
  const far = [T[i - 2], before, c, after, T[i + 2]].filter((t) => t !== undefined).sort((a, b) => a - b);
  return far[(far.length - 1) >> 1]!;
}
