import savitzkyGolayModule from "ml-savitzky-golay";
import { sgg } from "ml-savitzky-golay-generalized";
import { dot } from "../numerics/dot.ts";

// The package is CommonJS: its default import is an object in Node and Deno and the function itself in a bundle.
type Filter = (
  data: number[],
  h: number,
  options: { windowSize: number; derivative: number; polynomial: number },
) => number[];
const savitzkyGolay = ((savitzkyGolayModule as { default?: unknown }).default ?? savitzkyGolayModule) as Filter;

/** Weights of a Savitzky–Golay filter: one kernel for the interior, one row of weights for each point near an end. */
export interface FilterTable {
  /** Number of points of the kernel, odd. */
  points: number;
  /** Interior kernel: out[k] = Σ interior[j]·y[k − half + j]. */
  interior: Float64Array;
  /** Rows for the first `half` points, on the first `points` values. */
  start: Float64Array[];
  /** Rows for the last `half` points, on the last `points` values. */
  end: Float64Array[];
}

/** Tables made so far, with the shape of each: a run needs few, and looks for one some fifty times. */
const cache: { degree: number; derivative: number; step: number; table: FilterTable }[] = [];

/**
 * Weights of the Savitzky–Golay filter (Anal Chem 36:1627, 1964), ends by the polynomial of the first and last window.
 * The numbers come from `ml-savitzky-golay` (interior, response to a unit impulse) and
 * `ml-savitzky-golay-generalized` (ends), once per shape: the same weights then serve the filter, its transpose and the uncertainty.
 *
 * @param points Kernel length, odd, more than `degree`.
 * @param options `degree` of the polynomial, `derivative` (0 or 1), `step` of the grid, °C.
 * @throws RangeError for an even or too short kernel.
 */
export function filterTable(
  points: number,
  options: { degree: number; derivative: number; step: number },
): FilterTable {
  const { degree, derivative, step } = options;
  if (points % 2 === 0 || points <= degree || points < 3) {
    throw new RangeError(`Use an odd number of points above the degree ${degree} for smoothing, not ${points}`);
  }
  for (const known of cache) {
    const { table } = known;
    if (table.points === points && known.degree === degree && known.derivative === derivative && known.step === step)
      return table;
  }
  const half = (points - 1) / 2;
  const table: FilterTable = { points, interior: interiorKernel(points, options), start: rows(half), end: rows(half) };
  // The end fit is D = Σ (filtered q)·qᵀ over orthonormal polynomials q, since it reproduces polynomials of its degree:
  // degree + 1 calls in place of one per impulse (the package rebuilds its weights at every call).
  for (const q of orthonormalPolynomials(points, degree)) {
    const filtered = sgg(q, step, { windowSize: points, derivative, polynomial: degree });
    for (let j = 0; j < points; j++) {
      for (let i = 0; i < half; i++) {
        table.start[i]![j]! += filtered[i]! * q[j]!;
        table.end[i]![j]! += filtered[half + 1 + i]! * q[j]!;
      }
      // Below 5 points ml-savitzky-golay refuses; the middle row of the end fit is the same polynomial.
      if (points < 5) table.interior[j]! += filtered[half]! * q[j]!;
    }
  }
  // A search for the best width tries many; the last ones asked for matter.
  if (cache.length >= 64) cache.shift();
  cache.push({ degree, derivative, step, table });
  return table;

  function rows(count: number): Float64Array[] {
    return Array.from({ length: count }, () => new Float64Array(points));
  }
}

function interiorKernel(
  points: number,
  { degree, derivative, step }: { degree: number; derivative: number; step: number },
) {
  const kernel = new Float64Array(points);
  if (points < 5) return kernel;
  const impulse = new Array<number>(2 * points - 1).fill(0);
  impulse[points - 1] = 1;
  const response = savitzkyGolay(impulse, step, { windowSize: points, derivative, polynomial: degree });
  // The response to an impulse is the kernel backwards. Even derivatives have a symmetric kernel, odd ones an antisymmetric one:
  // the mean of both halves is so to the last digit.
  const sign = derivative % 2 === 0 ? 1 : -1;
  for (let j = 0; j < points; j++) kernel[j] = (response[points - 1 - j]! + sign * response[j]!) / 2;
  return kernel;
}

/** Polynomials of degree 0 … `degree`, orthonormal over `points` equal steps (Gram–Schmidt, twice for the last digits). */
function orthonormalPolynomials(points: number, degree: number): Float64Array[] {
  const found: Float64Array[] = [];
  const half = (points - 1) / 2;
  for (let d = 0; d <= degree; d++) {
    const q = Float64Array.from({ length: points }, (_, i) => ((i - half) / Math.max(half, 1)) ** d);
    for (const before of [...found, ...found]) {
      const along = dot(q, before);
      for (let i = 0; i < points; i++) q[i]! -= along * before[i]!;
    }
    const length = Math.sqrt(dot(q, q));
    found.push(q.map((x) => x / length));
  }
  return found;
}
