/** A number for the eye: 5 significant digits, whole numbers as they are; — for one that is none. */
export function shortNumber(value: number): string {
  if (!Number.isFinite(value)) return "—";
  return String((Number.isInteger(value) ? value : Number(value.toPrecision(5))) + 0);
}
