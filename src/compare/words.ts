import type { CellKey } from "../protocol/types.ts";

/** `cloth 1 d`, `sealed`. */
export function regimeWords({ curing, curing_d }: Pick<CellKey, "curing" | "curing_d">): string {
  const days = curing_d === null ? "" : ` ${Number(curing_d.toPrecision(6))} d`;
  return `${curing ?? "no curing named"}${days}`;
}

/** `1, 3 and 7`. */
export function listWords(items: readonly string[]): string {
  return items.length < 2 ? (items[0] ?? "") : `${items.slice(0, -1).join(", ")} and ${items.at(-1)}`;
}
