import { jsonBytes } from "./jsonBytes.ts";
import type { KeyOrder } from "./keyOrder.ts";

const utf8 = new TextDecoder();

/**
 * Plain data → JSON on one line, as `writeJson` says.
 *
 * @throws RangeError for NaN and infinities.
 */
export function toJson(value: unknown, order: KeyOrder = true): string {
  return utf8.decode(jsonBytes(value, order));
}
