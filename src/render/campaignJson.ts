import type { Campaign } from "../campaign/types.ts";
import type { RunResult } from "../protocol/types.ts";
import { decodeBytes } from "../read/decodeBytes.ts";
import { jsonBytes } from "./jsonBytes.ts";
import { type KeyOrder, keyOrder } from "./keyOrder.ts";

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
  return [...campaignPieces(campaign)]
    .map((piece) => (typeof piece === "string" ? piece : decodeBytes(piece, "utf-8")))
    .join("");
}

/**
 * The text of {@link campaignJson} in pieces of about a line, as text or in UTF-8, so that thousands of runs need not stand in
 * memory at once.
 *
 * @param runs Runs that are written already, by {@link runJson}.
 */
export function* campaignPieces(
  campaign: Campaign,
  runs: ReadonlyMap<RunResult, Uint8Array> = new Map(),
): Generator<string | Uint8Array> {
  const order = keyOrder.campaign;
  const { decisions, ...rest } = campaign;
  yield "{\n";
  yield* members(rest, order, runs);
  if (decisions !== undefined) {
    yield `,\n"decisions":{\n`;
    yield* members(decisions, order.decisions as Readonly<Record<string, KeyOrder>>, runs);
    yield "\n}";
  }
  yield "\n}\n";
}

/** A run as its line of campaign.json, UTF-8, without the line break. */
export function runJson(run: RunResult): Uint8Array<ArrayBuffer> {
  return jsonBytes(run, keyOrder.campaign.runs);
}

/** The members of an object in their order, lists with one item per line. */
function* members(
  object: object,
  order: Readonly<Record<string, KeyOrder>>,
  known: ReadonlyMap<unknown, Uint8Array>,
): Generator<string | Uint8Array> {
  const values = new Map(Object.entries(object));
  const keys = Object.keys(order).filter((key) => values.has(key));
  for (const [i, key] of keys.entries()) {
    const value: unknown = values.get(key);
    const inner = order[key]!;
    yield `${i === 0 ? "" : ",\n"}${JSON.stringify(key)}:`;
    if (!Array.isArray(value) || value.length === 0) {
      yield jsonBytes(value, inner);
      continue;
    }
    yield "[\n";
    for (const [k, item] of value.entries()) {
      if (k > 0) yield ",\n";
      yield known.get(item) ?? jsonBytes(item, inner);
    }
    yield "\n]";
  }
}
