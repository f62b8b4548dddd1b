import { nthSmallest } from "../numerics/nthSmallest.ts";
import type { Run } from "../read/types.ts";
import type { Heating } from "./findHeatings.ts";

/** A stretch in which the temperature stands still, as indices of readings. */
export interface Hold {
  first: number;
  end: number;
  /** Median temperature, °C. */
  temperature: number;
}

/** Rates below this share of the heating rate count as standing still. */
const STILL = 0.1;
/** The rate is taken over this time, s, … */
const SPAN = 60;
/** … and over the time in which the heating covers this, °C, so that slow heatings are judged on more than noise. */
const SPAN_C = 2;
/** Shorter pauses are slow heating, s. */
const SHORTEST = 120;
/** A hold reaches as far as the temperature stays this close to it, °C. */
const CLOSE = 0.5;
/** A slow stretch that rises by more than this is a slow heating, °C. */
const CREEP = 5;
/** Without time: readings per span and for the shortest hold. */
const SPAN_READINGS = 10;
const SHORTEST_READINGS = 20;

/**
 * Finds the isothermals of a heating by its rate, with the rate that covers most of the heating as the measure.
 * Without a time column every reading counts as one unit of time.
 *
 * @returns Holds in the order of measurement, and the heating rate in K/min (in °C per reading without time).
 */
export function findIsothermals(
  run: Pick<Run, "temperature" | "time">,
  heating: Heating,
): { holds: Hold[]; rate: number } {
  const { temperature: T, time } = run;
  const { first, end } = heating;
  // Temperatures in whole degrees stand still for as many readings as a degree takes: the span must cover several.
  const perDegree = (end - first) / Math.max(T[end - 1]! - T[first]!, 1);
  const readings = Math.max(SPAN_READINGS, Math.ceil(SPAN_C * 2 * perDegree));
  const shortest = time ? SHORTEST : Math.max(SHORTEST_READINGS, 2 * readings);
  const rough = localRates(T, { time, first, end, span: time ? SPAN : readings });
  const usual = usualRate(T, rough, heating);
  const wide = time ? SPAN_C / usual : 0;
  const rates = wide > SPAN ? localRates(T, { time, first, end, span: wide }) : rough;
  const holds: Hold[] = [];
  for (let i = first; i < end; ) {
    if (rates[i - first]! >= STILL * usual) {
      i++;
      continue;
    }
    let stop = i;
    while (stop < end && rates[stop - first]! < STILL * usual) stop++;
    if (T[stop - 1]! - T[i]! > CREEP) {
      i = stop;
      continue;
    }
    const hold = settle(T, { first: i, end: stop }, heating);
    const last = holds.at(-1);
    const long = duration(hold) >= shortest;
    if (long && last && hold.first <= last.end) last.end = Math.max(hold.end, last.end);
    else if (long) holds.push(hold);
    i = Math.max(stop, hold.end);
  }
  return { holds, rate: time ? usual * 60 : usual };

  function duration(hold: Hold): number {
    return time ? time[hold.end - 1]! - time[hold.first]! : hold.end - hold.first;
  }
}

/** Rate at every reading over about `span`, °C per unit of time. */
function localRates(
  T: Float64Array,
  { time, first, end, span }: { time: Float64Array | null; first: number; end: number; span: number },
): Float64Array {
  const rates = new Float64Array(end - first);
  const clock = time ?? Float64Array.from({ length: end }, (_, i) => i);
  let low = first;
  let high = first;
  for (let i = first; i < end; i++) {
    const since = clock[i]! - span / 2;
    const until = clock[i]! + span / 2;
    while (low < i - 1 && clock[low]! < since) low++;
    while (high < end - 1 && (high <= i || clock[high]! < until)) high++;
    const elapsed = clock[high]! - clock[low]!;
    rates[i - first] = elapsed > 0 ? (T[high]! - T[low]!) / elapsed : 0;
  }
  return rates;
}

/** The rate in the middle of all °C covered: median of the rates, each weighted by the rise it stands for. */
function usualRate(T: Float64Array, rates: Float64Array, { first, end }: Heating): number {
  // One vote per °C of rise instead of a weighted median: the same answer from a plain selection.
  const votes: number[] = [];
  let reached = T[first]!;
  for (let i = first; i < end; i++) {
    if (T[i]! >= reached + 1) {
      votes.push(rates[i - first]!);
      reached = T[i]!;
    }
  }
  if (votes.length === 0) return rates.reduce((most, rate) => Math.max(most, rate), 0);
  const middle = votes.length >> 1;
  return nthSmallest(Float64Array.from(votes), middle);
}

/** Widens or narrows a slow stretch to the readings that are close to its temperature. */
function settle(T: Float64Array, { first, end }: Heating, bounds: Heating): Hold {
  const temperatures = T.slice(first, end);
  const middle = temperatures.length >> 1;
  const temperature = nthSmallest(temperatures, middle);
  let from = first;
  while (from > bounds.first && T[from - 1]! > temperature - CLOSE) from--;
  while (from < end - 1 && T[from]! < temperature - CLOSE) from++;
  let to = end;
  while (to < bounds.end && T[to]! < temperature + CLOSE) to++;
  while (to > from + 1 && T[to - 1]! > temperature + CLOSE) to--;
  return { first: from, end: to, temperature };
}
