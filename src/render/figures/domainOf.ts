import { nice } from "d3-array";

/** Range of an axis that holds all values, ends on round numbers; for no values, or one, a range about it that can be drawn. */
export function domainOf(values: readonly (number | null)[], options: { zero?: boolean } = {}): [number, number] {
  const known = values.filter((value) => value !== null);
  if (options.zero) known.push(0);
  if (known.length === 0) return [0, 1];
  const lo = Math.min(...known);
  const hi = Math.max(...known);
  const margin = hi > lo ? (hi - lo) * 0.04 : Math.abs(hi) * 0.1 || 1;
  const [from, to] = nice(options.zero && lo === 0 ? 0 : lo - margin, options.zero && hi === 0 ? 0 : hi + margin, 10);
  return [from, to];
}
