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
 *
 * @example
 * ```ts
 * import { readRun, subtractBlank } from "tg-hydrates";
 * const rows = ["T/°C\tm/mg"];
 * for (let T = 30; T <= 300; T += 0.5) rows.push(`${T}\t${(20 - 2 / (1 + Math.exp((150 - T) / 5))).toFixed(4)}`);
 * const run = readRun(new TextEncoder().encode(rows.join("\n")));
 * const empty = ["T/°C\tm/mg"];
 * for (let T = 30; T <= 300; T += 0.5) empty.push(`${T}\t${(0.05 * (1 - 303.15 / (T + 273.15))).toFixed(4)}`);
 * const blank = readRun(new TextEncoder().encode(empty.join("\n")), { name: "blank.txt" });
 * const { mass } = subtractBlank(run, blank, { grid: { step_C: 0.5 }, smoothing: { width_C: 10, degree: 3 } });
 * if (Math.abs(run.mass.at(-1)! - mass.at(-1)! - 0.0236) > 0.0005) throw new Error("buoyancy is taken off");
 * ```
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

/** Where the blank starts, mg: the median of its first five readings, since a first reading alone may be an odd one. */
function startOf(blank: Run): number {
  const first = [...blank.mass.subarray(0, 5)].sort((a, b) => a - b);
  return first[first.length >> 1]!;
}

function sameProgramme(run: Run, blank: Run): boolean {
  if (run.time === null || blank.time === null || blank.time.length < 2) return false;
  let j = 0;
  for (let i = 0; i < run.time.length; i++) {
    const t = run.time[i]!;
    while (j < blank.time.length - 2 && blank.time[j + 1]! < t) j++;
    if (t > blank.time.at(-1)! + 60) return false;
    const [t0, t1] = [blank.time[j]!, blank.time[j + 1]!];
    const share = t1 > t0 ? Math.min(Math.max((t - t0) / (t1 - t0), 0), 1) : 0;
    const T = blank.temperature[j]! + share * (blank.temperature[j + 1]! - blank.temperature[j]!);
    if (Math.abs(T - run.temperature[i]!) > SAME) return false;
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
  const zero = startOf(blank);
  for (let j = 0; j < time.length; j++) sums[j + 1] = sums[j]! + blank.mass[j]! - zero;
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
  if (hottest < low || coldest > high) {
    const say = `${low.toFixed(0)} to ${high.toFixed(0)} °C, the run ${coldest.toFixed(0)} to ${hottest.toFixed(0)} °C`;
    const message = `the blank covers ${say}: it has nothing to subtract; measure it in the programme of the run`;
    throw new UnreadableError("blank-differs", message, { source: curve.run.source.name });
  }
  if (hottest > high + SAME || coldest < low - SAME) {
    findings.push(
      `covers ${low.toFixed(0)} to ${high.toFixed(0)} °C, the run ${coldest.toFixed(0)} to ${hottest.toFixed(0)} °C: beyond it the nearest value was taken`,
    );
  }
  const own = toCurve(run, curve.options).heatingRate;
  if (own !== null && curve.heatingRate !== null && Math.abs(own / curve.heatingRate - 1) > RATE) {
    findings.push(`was heated at ${curve.heatingRate.toFixed(1)} K/min, the run at ${own.toFixed(1)} K/min`);
  } else if (run.time !== null && curve.run.time !== null && findings.length === 0) {
    findings.push("follows another programme; it was subtracted by temperature");
  }
  const zero = startOf(curve.run);
  const change = (T: number): number =>
    evaluate(curve, massAt(curve, Math.min(Math.max(T, low), high), "leaving")!) - zero;
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
