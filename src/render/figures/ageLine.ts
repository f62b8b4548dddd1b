/** An axis of ages with some room at both ends. */
export interface AgeLine {
  domain: [number, number];
  /** Place of an age, px. */
  place: (age: number) => number;
  /** The age that stands `px` beside this one. */
  at: (age: number, px: number) => number;
}

/** Where ages (ascending, days) stand on an axis of this length, with `room` px before the first and after the last. */
export function ageLine(ages: readonly number[], options: { log: boolean; length: number; room: number }): AgeLine {
  const { log, length, room } = options;
  const to = log ? Math.log : (value: number) => value;
  const back = log ? Math.exp : (value: number) => value;
  const first = to(ages[0] ?? (log ? 1 : 0));
  const last = to(ages.at(-1) ?? (log ? 10 : 1));
  const wide = last > first;
  const perPx = wide ? (last - first) / (length - 2 * room) : 1 / length;
  const from = wide ? first - room * perPx : first - (length / 2) * perPx;
  const place = (age: number): number => (to(age) - from) / perPx;
  return {
    domain: [back(from), back(from + length * perPx)],
    place,
    at: (age, px) => back(to(age) + px * perPx),
  };
}
