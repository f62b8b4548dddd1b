import { applyFilterTransposed } from "./applyFilterTransposed.ts";
import { type FilterTable, filterTable } from "./filterTable.ts";
import type { Functional, Weights } from "./functional.ts";
import { gridMeansTransposed } from "./gridMeansTransposed.ts";
import { pointsOf } from "./pointsOf.ts";
import type { Curve, Piece } from "./types.ts";

/** Weights on neighbouring readings of a run, from reading `first` on. */
export interface ReadingWeights {
  first: number;
  weights: Float64Array;
}

/**
 * Weights of a functional on the readings of the run: the transposes of smoothing, grid and isotonic averaging, one
 * after the other. With them the noise of a loss is √Σw²σ², whatever the rule (JCGM 100:2008, 5.1.2).
 *
 * @returns Stretches of readings with weights, in order, apart from one another; all other readings weigh nothing. The
 * sum of weight · mass over them is the value of the functional.
 */
export function pullBack(curve: Curve, { mass, dtg, readings }: Functional): ReadingWeights[] {
  const stretches: ReadingWeights[] = [];
  const { step_C: step } = curve.options.grid;
  for (const piece of curve.pieces) {
    const length = piece.gridEnd - piece.gridFirst;
    const { points, degree } = pointsOf(curve.options, length);
    const raw = { weights: zeros(length), length, low: length, high: 0 };
    const spread = (weights: Weights, sign: 1 | -1, derivative: 0 | 1): void =>
      onGrid(weights, { piece, sign, table: filterTable(points, { degree, derivative, step }), raw });
    if (mass.at.length > 0) spread(mass, 1, 0);
    // DTG = −dm/dT.
    if (dtg.at.length > 0) spread(dtg, -1, 1);
    if (raw.high === 0) continue;
    toReadings(piece, raw, { step, found: stretches });
    raw.weights.fill(0, raw.low, raw.high);
  }
  if (readings.at.length > 0) stretches.push(single(readings));
  return merge(stretches);
}

/** Weights on the grid of a piece; all are zero outside low … high. */
interface GridWeights {
  weights: Float64Array;
  length: number;
  low: number;
  high: number;
}

/** Lent from one call to the next, which leaves them all zeros: a budget asks some twenty times for each run. */
let scratch = { raw: new Float64Array(0), smooth: new Float64Array(0) };

function zeros(length: number): Float64Array {
  if (scratch.raw.length < length) {
    scratch = { raw: new Float64Array(2 * length), smooth: new Float64Array(2 * length) };
  }
  return scratch.raw;
}

/** The transpose of a filter, once for every point of the smoothed curve: a functional names most of its points several times. */
function onGrid(
  { at, w }: Weights,
  { piece, sign, table, raw }: { piece: Piece; sign: 1 | -1; table: FilterTable; raw: GridWeights },
): void {
  const { gridFirst, gridEnd } = piece;
  const { weights, length: end } = raw;
  const { smooth } = scratch;
  let [low, high] = [end, 0];
  for (let i = 0; i < at.length; i++) {
    const k = at[i]! - gridFirst;
    if (k < 0 || k >= gridEnd - gridFirst) continue;
    smooth[k]! += sign * w[i]!;
    if (k < low) low = k;
    if (k >= high) high = k + 1;
  }
  for (let k = low; k < high; k++) {
    const weight = smooth[k]!;
    if (weight === 0) continue;
    smooth[k] = 0;
    const from = applyFilterTransposed(table, { k, w: weight }, { weights, first: 0, end });
    if (from < raw.low) raw.low = from;
    if (from + table.points > raw.high) raw.high = from + table.points;
  }
}

/**
 * Every run of grid points with weights by itself: beyond its own edges the integrals cancel, so that only the readings
 * about it are touched.
 */
function toReadings(
  { firstPoint, first, knots }: Piece,
  raw: GridWeights,
  { step, found }: { step: number; found: ReadingWeights[] },
): void {
  const { temperature, knotOf, count } = knots;
  for (let a = raw.low; a < raw.high; ) {
    if (raw.weights[a] === 0) {
      a++;
      continue;
    }
    let b = a;
    while (b < raw.high && raw.weights[b] !== 0) b++;
    const low = Math.max(lastBelow(temperature, (firstPoint + a - 0.5) * step), 0);
    const high = Math.min(lastBelow(temperature, (firstPoint + b - 0.5) * step) + 1, temperature.length - 1);
    const onKnots = gridMeansTransposed(
      { values: temperature, from: low, to: high + 1 },
      { values: raw.weights, from: a, to: b },
      { first: firstPoint + a, step },
    );
    if (!knotOf || !count) found.push({ first: first + low, weights: onKnots });
    else {
      const from = lastBelow(knotOf, low - 1) + 1;
      const to = lastBelow(knotOf, high);
      const weights = new Float64Array(to - from + 1);
      for (let i = from; i <= to; i++) weights[i - from] = onKnots[knotOf[i]! - low]! / count[knotOf[i]!]!;
      found.push({ first: first + from, weights });
    }
    a = b;
  }
}

/** Index of the last value not above `limit` in growing values; −1 if all are above. */
function lastBelow(values: Float64Array | Uint32Array, limit: number): number {
  let low = 0;
  let high = values.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (values[middle]! <= limit) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}

function single({ at, w }: Weights): ReadingWeights {
  const first = at.reduce((a, b) => Math.min(a, b));
  const last = at.reduce((a, b) => Math.max(a, b));
  const weights = new Float64Array(last - first + 1);
  for (let i = 0; i < at.length; i++) weights[at[i]! - first]! += w[i]!;
  return { first, weights };
}

/** Stretches that touch or overlap are one. */
function merge(stretches: ReadingWeights[]): ReadingWeights[] {
  stretches.sort((a, b) => a.first - b.first);
  const merged: ReadingWeights[] = [];
  for (const stretch of stretches) {
    const before = merged.at(-1);
    if (!before || before.first + before.weights.length < stretch.first) {
      merged.push(stretch);
      continue;
    }
    const end = Math.max(before.first + before.weights.length, stretch.first + stretch.weights.length);
    const weights = new Float64Array(end - before.first);
    weights.set(before.weights);
    for (let i = 0; i < stretch.weights.length; i++) weights[stretch.first - before.first + i]! += stretch.weights[i]!;
    before.weights = weights;
  }
  return merged;
}
