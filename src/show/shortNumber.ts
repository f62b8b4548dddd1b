/** A number for the eye: 4 significant digits, but every digit before the point; — for one that is none. */
export function shortNumber(value: number): string {
  if (!Number.isFinite(value)) return "—";
  if (Number.isInteger(value)) return String(value + 0);
  return String((Math.abs(value) < 1000 ? Number(value.toPrecision(4)) : Math.round(value)) + 0);
}
