import { xMaxValue, xMinValue } from "ml-spectra-processing/x";
import { UnreadableError } from "../errors.ts";
import { flag } from "../flags.ts";
import type { Run } from "../read/types.ts";
import { evaluate } from "./functional.ts";
import { massAt } from "./massAt.ts";
import { toCurve } from "./toCurve.ts";
import type { Curve, CurveOptions } from "./types.ts";

/** Two programmes are the same while their temperatures differ by no more than this at one time, °C. */
const SAME = 3;
/** Rates may differ by this share before it is said. */
const RATE = 0.05;

/**
 * Run less what an empty crucible shows in the same programme: buoyancy and drift of the balance. Where both have a time
 * and the same programme reading by reading, the blank is taken at the same time (isothermals included), otherwise at
 * the same temperature of its heating. The blank is smoothed before, so that its noise is not added to the run's.
 *
 * @param run Mass in mg.
 * @param blank The empty crucible, mass in mg.
 * @param options Smoothing of the blank.
 * @returns A new run with the flag `blank-differs` where the programmes differ or the blank does not cover the run.
 * @throws UnreadableError (`no-absolute-mass`) where one of the two has no absolute mass: % cannot be subtracted.
 */
export function subtractBlank(run: Run, blank: Run, options: CurveOptions): Run {
  for (const one of [run, blank]) {
    if (one.massUnit === "mg") continue;
    const message = `the mass is given in % only: a blank can be subtracted from masses in absolute units only; give initial_mass_mg in the run sheet, or leave the blank out`;
    throw new UnreadableError("no-absolute-mass", message, { source: one.source.name });
  }
  const curve = toCurve(blank, options);
  const { at, findings } = sameProgramme(run, blank) ? byTime(run, blank, options) : byTemperature(run, curve);
  const mass = run.mass.map((m, i) => m - at(i));
  const flags = findings.map((finding) => flag("blank-differs", `The blank ${blank.source.name} ${finding}.`));
  return { ...run, mass, flags: [...run.flags, ...flags] };
}

interface Correction {
  /** Change of the blank since its start at reading i of the run, mg. */
  at: (i: number) => number;
  findings: string[];
}

function sameProgramme(run: Run, blank: Run): boolean {
  if (run.time === null || blank.time === null) return false;
  let j = 0;
  for (let i = 0; i < run.time.length; i++) {
    const t = run.time[i]!;
    while (j < blank.time.length - 1 && blank.time[j + 1]! < t) j++;
    if (t > blank.time.at(-1)! + 60) return false;
    if (Math.abs(blank.temperature[j]! - run.temperature[i]!) > SAME) return false;
  }
  return true;
}

/** Mean of the blank over the time in which the heating crosses the smoothing width. */
function byTime(run: Run, blank: Run, options: CurveOptions): Correction {
  const time = blank.time!;
  const T = blank.temperature;
  const rise = Math.max(xMaxValue(T) - T[0]!, 1);
  const half = (options.smoothing.width_C / rise) * (time.at(-1)! - time[0]!) * 0.5;
  const sums = new Float64Array(time.length + 1);
  for (let j = 0; j < time.length; j++) sums[j + 1] = sums[j]! + blank.mass[j]! - blank.mass[0]!;
  const changes = new Float64Array(run.mass.length);
  let low = 0;
  let high = 0;
  for (let i = 0; i < changes.length; i++) {
    const t = Math.min(run.time![i]!, time.at(-1)!);
    // The window shrinks towards both ends, so that it stays centred and a drift is not shifted.
    const reach = Math.min(half, t - time[0]!, time.at(-1)! - t);
    while (low < time.length - 1 && time[low]! < t - reach - 1e-9) low++;
    while (high < time.length && time[high]! <= t + reach + 1e-9) high++;
    changes[i] = (sums[Math.max(high, low + 1)]! - sums[low]!) / (Math.max(high, low + 1) - low);
  }
  return { at: (i) => changes[i]!, findings: [] };
}

function byTemperature(run: Run, curve: Curve): Correction {
  const findings: string[] = [];
  const low = curve.pieces[0]!.from;
  const high = curve.pieces.at(-1)!.to;
  const hottest = xMaxValue(run.temperature);
  const coldest = xMinValue(run.temperature);
  if (hottest > high + SAME || coldest < low - SAME) {
    findings.push(
      `covers ${low.toFixed(0)} to ${high.toFixed(0)} °C, the run ${coldest.toFixed(0)} to ${hottest.toFixed(0)} °C: beyond it the nearest value was taken`,
    );
  }
  const own = rateOf(run);
  if (own !== null && curve.heatingRate !== null && Math.abs(own / curve.heatingRate - 1) > RATE) {
    findings.push(`was heated at ${curve.heatingRate.toFixed(1)} K/min, the run at ${own.toFixed(1)} K/min`);
  } else if (run.time !== null && curve.run.time !== null && findings.length === 0) {
    findings.push("follows another programme; it was subtracted by temperature");
  }
  const change = (T: number): number =>
    evaluate(curve, massAt(curve, Math.min(Math.max(T, low), high), "leaving")!) - curve.initialMass;
  // A table over whole degrees: the blank is smooth, and a run has thousands of readings.
  const first = Math.floor(Math.max(coldest, low));
  const table: number[] = [];
  for (let T = first; T <= Math.ceil(Math.min(hottest, high)) + 1; T++) table.push(change(T));
  const at = (i: number): number => {
    const position = Math.min(Math.max(run.temperature[i]! - first, 0), table.length - 1.001);
    const k = Math.floor(position);
    return table[k]! + (position - k) * (table[k + 1]! - table[k]!);
  };
  return { at, findings };
}

/** Rise over time between a quarter and three quarters of the readings, K/min. */
function rateOf({ temperature, time }: Run): number | null {
  if (time === null) return null;
  const top = temperature.indexOf(xMaxValue(temperature));
  const [a, b] = [top >> 2, (3 * top) >> 2];
  return time[b]! > time[a]! ? ((temperature[b]! - temperature[a]!) / (time[b]! - time[a]!)) * 60 : null;
}
