import type { Campaign } from "../campaign/types.ts";
import { type KeyOrder, keyOrder } from "./keyOrder.ts";
import { toJson } from "./toJson.ts";

/**
 * campaign.json: everything about a campaign. One run, one row of the ages, one mix per line, keys in a fixed order, numbers at 9
 * significant digits: equal campaigns are equal to the byte. `campaignFromJson` reads it back.
 *
 * @example
 * ```ts
 * import { campaignJson, indexBytes, newJob, protocols, settle, summarise } from "tg-hydrates";
 * const protocol = settle(protocols.csa);
 * const rows = ["T/°C\tm/mg"];
 * for (let T = 30; T <= 960; T += 0.5) rows.push(`${T}\t${(20 - 4 / (1 + Math.exp((130 - T) / 5))).toFixed(4)}`);
 * const bytes = new TextEncoder().encode(rows.join("\n"));
 * const campaign = summarise([indexBytes(bytes, newJob("a.txt", { mix: "M1", age_min: 1440 }), { protocol })], { protocol });
 * if (JSON.parse(campaignJson(campaign)).schema !== "tg-hydrates/campaign/1") throw new Error("plain JSON");
 * ```
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
