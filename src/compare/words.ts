import { ageText } from "../campaign/ageText.ts";
import type { CellKey } from "../protocol/types.ts";

/** `28 d`, `6 h`; `unknown age`. */
export function ageWords(age_d: number | null): string {
  return age_d === null ? "unknown age" : ageText(Math.round(age_d * 1440)).replace(/(?<=\d)(?=[a-z])/, " ");
}

/** `cloth 1 d`, `sealed`. */
export function regimeWords({ curing, curing_d }: Pick<CellKey, "curing" | "curing_d">): string {
  const days = curing_d === null ? "" : ` ${Number(curing_d.toPrecision(6))} d`;
  return `${curing ?? "no curing named"}${days}`;
}

/** `1, 3 and 7`. */
export function listWords(items: readonly string[]): string {
  return items.length < 2 ? (items[0] ?? "") : `${items.slice(0, -1).join(", ")} and ${items.at(-1)}`;
}
