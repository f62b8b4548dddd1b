import type { ByteSink } from "./byteSink.ts";
import type { KeyOrder } from "./keyOrder.ts";
import { writeJson } from "./writeJson.ts";

const sink: ByteSink = { bytes: new Uint8Array(1 << 12), end: 0 };

/**
 * Plain data → JSON on one line, UTF-8, as {@link writeJson} says.
 *
 * @param after ASCII that follows. @default nothing
 * @returns Bytes of its own, in a buffer of its own.
 * @throws RangeError for NaN and infinities.
 */
export function jsonBytes(value: unknown, order: KeyOrder = true, after = ""): Uint8Array<ArrayBuffer> {
  sink.end = 0;
  writeJson(sink, value, order);
  const bytes = new Uint8Array(sink.end + after.length);
  bytes.set(sink.bytes.subarray(0, sink.end));
  for (let i = 0; i < after.length; i++) bytes[sink.end + i] = after.charCodeAt(i);
  return bytes;
}
