/** Significant digits of the largest number of a column. */
const DIGITS = 4;

/**
 * Decimals that stand a column of numbers below one another, its largest in 4 digits; null where the smallest would lose all of
 * its own that way, where all are whole numbers, or where something else stands in the column.
 */
export function columnDecimals(values: readonly unknown[]): number | null {
  const known = values.filter((value) => value !== null && value !== undefined);
  if (!known.every((value): value is number => typeof value === "number" && Number.isFinite(value))) return null;
  if (known.every(Number.isInteger)) return null;
  const sizes = known.map(Math.abs).filter((size) => size > 0);
  const most = Math.max(...sizes);
  if (Math.min(...sizes) < most / 500) return null;
  return Math.max(0, DIGITS - 1 - Math.floor(Math.log10(most)));
}
