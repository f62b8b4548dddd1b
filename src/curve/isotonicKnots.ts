/** Strictly growing temperatures and the readings that belong to each. */
export interface Knots {
  /** Isotonic temperatures, °C, strictly growing. */
  temperature: Float64Array;
  /** Knot of every reading; null where every reading is its own knot. */
  knotOf: Uint32Array | null;
  /** Readings per knot; null where every reading is its own knot. */
  count: Uint32Array | null;
}

/**
 * Isotonic averaging of temperature in the order of measurement: readings that step back are pooled with those before
 * them until the temperature grows (pool-adjacent-violators; Barlow et al., Statistical Inference under Order
 * Restrictions, Wiley 1972). No reading is dropped; readings at one temperature form one knot.
 *
 * @param temperature °C, readings `first` to `end` (exclusive) are used.
 */
export function isotonicKnots(temperature: Float64Array, first: number, end: number): Knots {
  if (grows(temperature, first, end)) {
    return { temperature: temperature.subarray(first, end), knotOf: null, count: null };
  }
  const n = end - first;
  const mean = new Float64Array(n);
  const count = new Uint32Array(n);
  let top = -1;
  for (let i = first; i < end; i++) {
    top++;
    mean[top] = temperature[i]!;
    count[top] = 1;
    while (top > 0 && mean[top]! <= mean[top - 1]!) {
      const together = count[top]! + count[top - 1]!;
      mean[top - 1] = (mean[top - 1]! * count[top - 1]! + mean[top]! * count[top]!) / together;
      count[top - 1] = together;
      top--;
    }
  }
  const knotOf = new Uint32Array(n);
  for (let knot = 0, i = 0; knot <= top; knot++) {
    for (let j = 0; j < count[knot]!; j++) knotOf[i++] = knot;
  }
  return { temperature: mean.slice(0, top + 1), knotOf, count: count.slice(0, top + 1) };
}

function grows(values: Float64Array, first: number, end: number): boolean {
  for (let i = first + 1; i < end; i++) if (values[i]! <= values[i - 1]!) return false;
  return true;
}
