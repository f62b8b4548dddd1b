/** Items by key, in the order in which the keys first come. */
export function grouped<T>(items: readonly T[], keyOf: (item: T) => unknown): T[][] {
  const groups = new Map<string, T[]>();
  for (const item of items) {
    const key = JSON.stringify(keyOf(item));
    const group = groups.get(key);
    if (group) group.push(item);
    else groups.set(key, [item]);
  }
  return [...groups.values()];
}
