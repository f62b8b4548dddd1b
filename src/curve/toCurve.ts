import { UnreadableError } from "../errors.ts";
import { type Flag, flag } from "../flags.ts";
import type { Run } from "../read/types.ts";
import { checkCurveOptions } from "./checkCurveOptions.ts";
import { estimateNoise } from "./estimateNoise.ts";
import { filterTable } from "./filterTable.ts";
import { findHeatings } from "./findHeatings.ts";
import { findIsothermals, type Hold } from "./findIsothermals.ts";
import { evaluate } from "./functional.ts";
import { gridMeans } from "./gridMeans.ts";
import { isotonicKnots } from "./isotonicKnots.ts";
import { knotMasses } from "./knotMasses.ts";
import { massAt } from "./massAt.ts";
import { pointsOf } from "./pointsOf.ts";
import { smoothAndDerive } from "./smoothAndDerive.ts";
import type { Curve, CurveOptions, Isothermal, Piece } from "./types.ts";

/** Readings further apart than this share of the smoothing width leave a hole in the curve. */
const HOLE = 0.5;

/**
 * Run → Curve: cuts out the heating, takes isothermals inside it as jumps, puts the rest on an even temperature grid
 * and smooths it (Savitzky–Golay, Anal Chem 36:1627, 1964; both ends by polynomial fit).
 *
 * @param run Temperatures in °C, mass in mg or % of the initial mass.
 * @param options Grid step and smoothing width, °C.
 * @returns Arrays over the grid, all of the same length. The curve refers to the run; nothing is copied back.
 * @throws UnreadableError (`no-heating`) if the run has no heating, or too short a one for a curve; RangeError for
 * options that cannot work.
 *
 * @example
 * ```ts
 * import { readRun, toCurve } from "tg-hydrates";
 * const rows = ["T/°C\tm/mg"];
 * for (let T = 30; T <= 300; T += 0.5) rows.push(`${T}\t${(20 - 2 / (1 + Math.exp((150 - T) / 5))).toFixed(4)}`);
 * const curve = toCurve(readRun(new TextEncoder().encode(rows.join("\n"))), {
 *   grid: { step_C: 0.5 },
 *   smoothing: { width_C: 10, degree: 3 },
 * });
 * if (Math.abs(curve.mass[0]! - 20) > 1e-3) throw new Error("the curve starts at the first mass");
 * ```
 */
export function toCurve(run: Run, options: CurveOptions): Curve {
  checkCurveOptions(options);
  const flags: Flag[] = [];
  const heatings = findHeatings(run);
  if (heatings.length === 0) {
    const message = "the temperature never rises by more than 5 °C: this is not a heating run";
    throw new UnreadableError("no-heating", message, { source: run.source.name });
  }
  const rise = (h: { first: number; end: number }) => run.temperature[h.end - 1]! - run.temperature[h.first]!;
  const heating = heatings.reduce((best, h) => (rise(h) > rise(best) ? h : best));
  if (heatings.length > 1) {
    const say = (i: number) => `${run.temperature[i]!.toFixed(0)} °C`;
    flags.push(
      flag(
        "several-heatings",
        `The file holds ${heatings.length} separate heatings; the one from ${say(heating.first)} to ${say(heating.end - 1)} was analysed.`,
      ),
    );
  }
  const { holds, rate } = findIsothermals(run, heating);
  if (run.time === null && !run.flags.some(({ code }) => code === "no-time"))
    flags.push(flag("no-time", "The file has no time column."));
  const tail = run.time === null ? null : holdAfter(run, heating.end);
  const { step_C: step } = options.grid;
  const pieces = cutPieces(run, { first: heating.first, end: heating.end }, { holds, step });
  const count = pieces.at(-1)?.gridEnd ?? 0;
  if (count === 0) {
    const message = `the heating covers less than three grid steps of ${step} °C: nothing to analyse`;
    throw new UnreadableError("no-heating", message, { source: run.source.name });
  }
  const curve: Curve = {
    run,
    options,
    pieces,
    isothermals: [],
    temperature: new Float64Array(count),
    raw: new Float64Array(count),
    mass: new Float64Array(count),
    dtg: new Float64Array(count),
    heatingRate: run.time === null ? null : rate,
    noise: { sd: 0, lagOne: 0 },
    initialMass: run.mass[0]!,
    flags,
  };
  for (const piece of pieces) fill(curve, piece);
  curve.noise = estimateNoise(curve);
  curve.isothermals = describeHolds(curve, holds, tail);
  flagHoles(curve);
  return curve;
}

/** The stretches between the holds that are long enough to carry a grid. */
function cutPieces(
  run: Run,
  { first, end }: { first: number; end: number },
  { holds, step }: { holds: Hold[]; step: number },
): Piece[] {
  const pieces: Piece[] = [];
  let gridFirst = 0;
  let from = first;
  for (const hold of [...holds, null]) {
    // The readings on entering and on leaving belong to the pieces too: they carry the two masses of the jump.
    const to = hold === null ? end : Math.min(hold.first + 1, end);
    if (to - from >= 2) {
      const knots = isotonicKnots(run.temperature, from, to);
      const low = knots.temperature[0]!;
      const high = knots.temperature.at(-1)!;
      const firstPoint = Math.ceil(low / step + 0.5 - 1e-9);
      const points = Math.floor(high / step - 0.5 + 1e-9) - firstPoint + 1;
      if (points >= 3) {
        pieces.push({
          first: from,
          end: to,
          from: low,
          to: high,
          knots,
          firstPoint,
          gridFirst,
          gridEnd: gridFirst + points,
        });
        gridFirst += points;
      }
    }
    if (hold) from = Math.max(hold.end - 1, from);
  }
  return pieces;
}

function fill(curve: Curve, piece: Piece): void {
  const { options, run } = curve;
  const { step_C: step } = options.grid;
  const { gridFirst: first, gridEnd: end, firstPoint } = piece;
  for (let k = first; k < end; k++) curve.temperature[k] = (firstPoint + k - first) * step;
  gridMeans(piece.knots.temperature, knotMasses(run.mass, piece), {
    first: firstPoint,
    step,
    out: curve.raw.subarray(first, end),
  });
  const { points, degree } = pointsOf(options, end - first);
  const smooth = filterTable(points, { degree, derivative: 0, step });
  const derive = filterTable(points, { degree, derivative: 1, step });
  // DTG = −dm/dT.
  smoothAndDerive({ smooth, derive }, curve.raw, { value: curve.mass, derivative: curve.dtg, sign: -1, first, end });
}

/** The isothermal that follows the heating without another rise, if there is one. */
function holdAfter(run: Run, end: number): Hold | null {
  const T = run.temperature;
  let stop = end;
  while (stop < T.length && Math.abs(T[stop]! - T[end - 1]!) < 5) stop++;
  return stop - end < 2 ? null : { first: end - 1, end: stop, temperature: T[end - 1]! };
}

function describeHolds(curve: Curve, holds: Hold[], tail: Hold | null): Isothermal[] {
  const { run, pieces } = curve;
  const time = (i: number) => (run.time ? run.time[i]! : i);
  const valueAt = (T: number, side: "entering" | "leaving") => {
    // At the outer ends the hold may stand a little beyond what the heating covers.
    const inside = Math.min(Math.max(T, pieces[0]!.from), pieces.at(-1)!.to);
    return evaluate(curve, massAt(curve, inside, side)!);
  };
  const all = [...holds];
  const last = all.at(-1);
  // Where the temperature creeps to its maximum during the final hold, the two meet: they are one.
  if (tail && last && last.end >= tail.first) last.end = tail.end;
  else if (tail) all.push(tail);
  return all.map((hold) => {
    const before = pieces.findLast((p) => p.first < hold.first);
    const after = pieces.find((p) => p.end > hold.end);
    const position = !before ? "start" : !after ? "end" : "inside";
    return {
      position,
      temperature: hold.temperature,
      from: time(hold.first),
      to: time(hold.end - 1),
      first: hold.first,
      end: hold.end,
      entering: before ? valueAt(hold.temperature, "entering") : run.mass[hold.first]!,
      leaving: after ? valueAt(hold.temperature, "leaving") : run.mass[hold.end - 1]!,
    };
  });
}

function flagHoles(curve: Curve): void {
  const widest = HOLE * curve.options.smoothing.width_C;
  for (const piece of curve.pieces) {
    const T = piece.knots.temperature;
    for (let i = 1; i < T.length; i++) {
      if (T[i]! - T[i - 1]! <= widest) continue;
      const sentence = `No readings between ${T[i - 1]!.toFixed(1)} and ${T[i]!.toFixed(1)} °C; the curve is a straight line there.`;
      curve.flags.push(flag("hole-in-run", sentence));
    }
  }
}
