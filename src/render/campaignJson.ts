import type { Campaign } from "../campaign/types.ts";
import { type KeyOrder, keyOrder } from "./keyOrder.ts";
import { toJson } from "./toJson.ts";

/**
 * campaign.json: everything about a campaign. One run, one row of the ages, one mix per line, keys in a fixed order, numbers at 9
 * significant digits: equal campaigns are equal to the byte. `campaignFromJson` reads it back.
 */
export function campaignJson(campaign: Campaign): string {
  const order = keyOrder.campaign;
  const parts = Object.keys(order).map((key) => {
    const value = campaign[key as keyof Campaign];
    const inner = order[key as keyof Campaign];
    return `${JSON.stringify(key)}:${Array.isArray(value) ? lines(value, inner) : toJson(value, inner)}`;
  });
  return `{\n${parts.join(",\n")}\n}\n`;
}

function lines(items: readonly unknown[], order: KeyOrder): string {
  return items.length === 0 ? "[]" : `[\n${items.map((item) => toJson(item, order)).join(",\n")}\n]`;
}
