import { formatNumber } from "./formatNumber.ts";
import type { KeyOrder } from "./keyOrder.ts";

/**
 * Plain data → JSON on one line, numbers at 9 significant digits. Keys stand in the given order, others after them by code unit;
 * a list passes the order on to its items. `undefined` is left out.
 *
 * @throws RangeError for NaN and infinities.
 */
export function toJson(value: unknown, order: KeyOrder = true): string {
  if (typeof value === "number") return formatNumber(value);
  if (value === null || typeof value !== "object") return JSON.stringify(value) ?? "null";
  if (Array.isArray(value)) return `[${value.map((item) => toJson(item, order)).join(",")}]`;
  const entries = orderedKeys(value, order).map((key) => {
    const inner = order !== true && Object.hasOwn(order, key) ? order[key]! : true;
    return `${JSON.stringify(key)}:${toJson((value as Record<string, unknown>)[key], inner)}`;
  });
  return `{${entries.join(",")}}`;
}

function orderedKeys(value: object, order: KeyOrder): string[] {
  const present = Object.entries(value).flatMap(([key, item]) => (item === undefined ? [] : [key]));
  if (order === true) return present.sort();
  const known = Object.keys(order).filter((key) => present.includes(key));
  return [...known, ...present.filter((key) => !Object.hasOwn(order, key)).sort()];
}
