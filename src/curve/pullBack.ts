import { applyFilterTransposed } from "./applyFilterTransposed.ts";
import { filterTable } from "./filterTable.ts";
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
    const raw = new Float64Array(piece.gridEnd - piece.gridFirst);
    const { points, degree } = pointsOf(curve.options, raw.length);
    const onMass = spread(mass, { piece, raw, sign: 1, table: filterTable(points, { degree, derivative: 0, step }) });
    // DTG = −dm/dT.
    const onDtg = spread(dtg, { piece, raw, sign: -1, table: filterTable(points, { degree, derivative: 1, step }) });
    if (onMass || onDtg) stretches.push(...toReadings(piece, raw, step));
  }
  if (readings.at.length > 0) stretches.push(single(readings));
  return merge(stretches);
}

function spread(
  { at, w }: Weights,
  { piece, raw, sign, table }: { piece: Piece; raw: Float64Array; sign: 1 | -1; table: ReturnType<typeof filterTable> },
): boolean {
  const { gridFirst, gridEnd } = piece;
  let touched = false;
  for (let i = 0; i < at.length; i++) {
    const k = at[i]!;
    if (k < gridFirst || k >= gridEnd || w[i] === 0) continue;
    touched = true;
    applyFilterTransposed(table, { k: k - gridFirst, w: sign * w[i]! }, { weights: raw, first: 0, end: raw.length });
  }
  return touched;
}

/**
 * Every run of grid points with weights by itself: beyond its own edges the integrals cancel, so that only the readings
 * about it are touched.
 */
function toReadings({ firstPoint, first, knots }: Piece, raw: Float64Array, step: number): ReadingWeights[] {
  const { temperature, knotOf, count } = knots;
  const found: ReadingWeights[] = [];
  for (let a = 0; a < raw.length; ) {
    if (raw[a] === 0) {
      a++;
      continue;
    }
    let b = a;
    while (b < raw.length && raw[b] !== 0) b++;
    const low = Math.max(lastBelow(temperature, (firstPoint + a - 0.5) * step), 0);
    const high = Math.min(lastBelow(temperature, (firstPoint + b - 0.5) * step) + 1, temperature.length - 1);
    const onKnots = gridMeansTransposed(temperature.subarray(low, high + 1), raw.subarray(a, b), {
      first: firstPoint + a,
      step,
    });
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
  return found;
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
