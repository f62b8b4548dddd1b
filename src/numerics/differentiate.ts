/**
 * Step relative to the parameter. The error of the five-point formula by curvature goes with its fourth power, by rounding
 * with its inverse: 1e-4 leaves eleven digits, and still resolves a peak of a hundredth of its position in width.
 */
const RELATIVE_STEP = 1e-4;

/**
 * Jacobian of a function of several parameters by central differences on five points (Abramowitz and Stegun, Handbook of
 * Mathematical Functions, 25.3.6): error of the order of the step to the fourth.
 *
 * @param f Parameters → values, always of the same length.
 * @param at Where; not changed.
 * @param options `typical`: the step is relative to the parameter, and to this where the parameter is smaller.
 * @returns One column per parameter; null where a value is not finite.
 */
export function differentiate(
  f: (parameters: number[]) => Float64Array,
  at: readonly number[],
  options: { typical: readonly number[] },
): Float64Array[] | null {
  const columns: Float64Array[] = [];
  for (let j = 0; j < at.length; j++) {
    const value = at[j]!;
    // A parameter far below its typical size is still moved by a step that shows.
    const wished = RELATIVE_STEP * Math.max(Math.abs(value), 1e-3 * options.typical[j]!);
    // The step that is really taken: value + step is rounded.
    const step = value + wished - value;
    const [far, near] = [2 * step, step].map((h) => {
      const up = f(at.with(j, value + h));
      const down = f(at.with(j, value - h));
      return up.map((high, i) => high - down[i]!);
    }) as [Float64Array, Float64Array];
    const column = near.map((difference, i) => (8 * difference - far[i]!) / (12 * step));
    if (!column.every(Number.isFinite)) return null;
    columns.push(column);
  }
  return columns;
}
