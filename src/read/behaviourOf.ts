/** How the numbers of a column run. */
export interface Behaviour {
  /** Numbers that are there. */
  count: number;
  first: number;
  last: number;
  min: number;
  max: number;
  /** (last − first) / sum of all steps over a coarse subset: 1 climbs, −1 falls, 0 does neither. */
  trend: number;
  /** Never falls, and rises in nearly every step. */
  grows: boolean;
  /** Counts 0, 1, 2, … or 1, 2, 3, … */
  counts: boolean;
}

/** Points of the coarse subset. */
const coarse = 64;

/** How the numbers of a column run; missing ones are passed over. */
export function behaviourOf(values: Float64Array): Behaviour {
  const present = withoutMissing(values);
  const count = present.length;
  let [min, max] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  let [up, down] = [0, 0];
  let counts = count > 2 && (present[0] === 0 || present[0] === 1);
  for (let i = 0; i < count; i++) {
    const value = present[i]!;
    if (value < min) min = value;
    if (value > max) max = value;
    if (i === 0) continue;
    const step = value - present[i - 1]!;
    if (step > 0) up++;
    else if (step < 0) down++;
    if (step !== 1) counts = false;
  }
  const first = present[0] ?? Number.NaN;
  const last = present[count - 1] ?? Number.NaN;
  const stride = Math.max(1, Math.floor(count / coarse));
  let travelled = 0;
  let before = first;
  for (let i = stride; i < count; i += stride) {
    travelled += Math.abs(present[i]! - before);
    before = present[i]!;
  }
  const trend = travelled === 0 ? 0 : (before - first) / travelled;
  return { count, first, last, min, max, trend, grows: down === 0 && up > 0.9 * (count - 1), counts };
}

function withoutMissing(values: Float64Array): Float64Array {
  for (let i = 0; i < values.length; i++) {
    if (Number.isNaN(values[i]!)) return values.filter((value) => !Number.isNaN(value));
  }
  return values;
}
