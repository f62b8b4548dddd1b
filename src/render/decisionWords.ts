/** Decimals with which numbers of this uncertainty are worth reading: two digits of it, at most four decimals. */
export function decimalsFor(halfIntervals: readonly number[]): number {
  const known = halfIntervals.filter((half) => half > 0).sort((a, b) => a - b);
  const middle = known[Math.floor(known.length / 2)];
  if (middle === undefined) return 2;
  return Math.max(0, Math.min(4, 1 - Math.floor(Math.log10(middle))));
}

/** A number with its decimals; never a minus before zero. */
export function fixed(value: number | null, decimals: number): string {
  return value === null ? "" : value.toFixed(decimals).replace(/^-(?=0\.?0*$)/, "");
}

/** The same with its sign. */
export function signed(value: number | null, decimals: number): string {
  const text = fixed(value, decimals);
  return text === "" || text.startsWith("-") || !/[1-9]/.test(text) ? text : `+${text}`;
}

/** A probability in two digits. */
export function probability(p: number | null): string {
  if (p === null) return "";
  return p < 0.0001 ? "<0.0001" : String(Number(p.toPrecision(2)));
}
