import { decodeBytes } from "../read/decodeBytes.ts";
import { jsonBytes } from "./jsonBytes.ts";
import type { KeyOrder } from "./keyOrder.ts";

/**
 * Plain data → JSON on one line, as `writeJson` says.
 *
 * @throws RangeError for NaN and infinities.
 */
export function toJson(value: unknown, order: KeyOrder = true): string {
  return decodeBytes(jsonBytes(value, order), "utf-8");
}
