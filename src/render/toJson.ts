import { formatNumber } from "./formatNumber.ts";
import type { KeyOrder } from "./keyOrder.ts";

/** The keys of an order with the text that stands before their values. */
interface Layout {
  keys: { key: string; label: string; inner: KeyOrder }[];
  known: ReadonlySet<string>;
}

/** Orders are constants, and every value of a campaign is written by one. */
const layouts = new WeakMap<object, Layout>();

/**
 * Plain data → JSON on one line, numbers at 9 significant digits. Keys stand in the given order, others after them by code unit;
 * a list passes the order on to its items. `undefined` is left out.
 *
 * @throws RangeError for NaN and infinities.
 */
export function toJson(value: unknown, order: KeyOrder = true): string {
  if (typeof value === "number") return formatNumber(value);
  if (value === null || typeof value !== "object") return JSON.stringify(value) ?? "null";
  if (Array.isArray(value)) {
    let items = "";
    for (const item of value) items += items === "" ? toJson(item, order) : `,${toJson(item, order)}`;
    return `[${items}]`;
  }
  const object = value as Record<string, unknown>;
  const { keys, known } = order === true ? unordered : layoutOf(order);
  let members = "";
  for (const { key, label, inner } of keys) {
    const item = Object.hasOwn(object, key) ? object[key] : undefined;
    if (item !== undefined) members += `${members === "" ? "" : ","}${label}${toJson(item, inner)}`;
  }
  const others = Object.keys(object).filter((key) => object[key] !== undefined && !known.has(key));
  for (const key of others.sort()) members += `${members === "" ? "" : ","}${labelOf(key)}${toJson(object[key], true)}`;
  return `{${members}}`;
}

const unordered: Layout = { keys: [], known: new Set() };

function layoutOf(order: Exclude<KeyOrder, true>): Layout {
  const made = layouts.get(order);
  if (made) return made;
  const keys = Object.entries(order).map(([key, inner]) => ({ key, label: labelOf(key), inner }));
  const layout = { keys, known: new Set(Object.keys(order)) };
  layouts.set(order, layout);
  return layout;
}

function labelOf(key: string): string {
  return `${JSON.stringify(key)}:`;
}
