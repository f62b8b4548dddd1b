import type { Campaign } from "../campaign/types.ts";
import { type KeyOrder, keyOrder } from "./keyOrder.ts";
import { toJson } from "./toJson.ts";

/**
 * campaign.json: everything about a campaign. One run, one row of the ages, one mix per line, keys in a fixed order, numbers at 9
 * significant digits: equal campaigns are equal to the byte. `campaignFromJson` reads it back.
 */
export function campaignJson(campaign: Campaign): string {
  const order = keyOrder.campaign;
  const { decisions, ...rest } = campaign;
  const parts = members(rest, order);
  if (decisions !== undefined) {
    const inner = members(decisions, order.decisions as Readonly<Record<string, KeyOrder>>);
    parts.push(`"decisions":{\n${inner.join(",\n")}\n}`);
  }
  return `{\n${parts.join(",\n")}\n}\n`;
}

/** The members of an object in their order, lists with one item per line. */
function members(object: object, order: Readonly<Record<string, KeyOrder>>): string[] {
  const values = new Map(Object.entries(object));
  return Object.keys(order).flatMap((key) => {
    if (!values.has(key)) return [];
    const value: unknown = values.get(key);
    return [`${JSON.stringify(key)}:${Array.isArray(value) ? lines(value, order[key]!) : toJson(value, order[key]!)}`];
  });
}

function lines(items: readonly unknown[], order: KeyOrder): string {
  return items.length === 0 ? "[]" : `[\n${items.map((item) => toJson(item, order)).join(",\n")}\n]`;
}
