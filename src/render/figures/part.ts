/** A part of a long list, where all of it would not be legible in one figure. */
export interface Part {
  /** How many come before it. @default 0 */
  from?: number;
  /** How many there are at most. @default all */
  count?: number;
}

/** The part of a list, the words for a title (`, regimes 9 to 16 of 40`; nothing for the whole) and for a name (`9`). */
export function part<T>(
  items: readonly T[],
  { from = 0, count = Number.POSITIVE_INFINITY }: Part,
  noun: string,
): { items: T[]; words: string; name: string | null } {
  const own = items.slice(from, from + count);
  const whole = own.length === items.length;
  return {
    items: own,
    words: whole ? "" : `, ${noun} ${from + 1} to ${from + own.length} of ${items.length}`,
    name: whole ? null : String(from + 1),
  };
}
