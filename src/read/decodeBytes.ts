/** What is used of the platform's decoder (WHATWG Encoding); reached without DOM or Node types. */
interface Decoder {
  decode(bytes: Uint8Array, options?: { stream?: boolean }): string;
}
type DecoderClass = new (label: string, options?: { ignoreBOM?: boolean }) => Decoder;

/** Encodings the reader knows. */
export type Encoding = "utf-8" | "utf-16le" | "utf-16be" | "windows-1252";

/**
 * Decodes some bytes; never fails (undecodable bytes become U+FFFD).
 *
 * @example
 * ```ts
 * decodeBytes(Uint8Array.of(0xb0, 0x43), "windows-1252"); // "°C"
 * ```
 */
export function decodeBytes(bytes: Uint8Array, encoding: Encoding): string {
  const { TextDecoder } = globalThis as unknown as { TextDecoder: DecoderClass };
  // Node 20 decodes windows-1252 0x80–0x9F as control characters unless it streams.
  return new TextDecoder(encoding, { ignoreBOM: true }).decode(bytes, { stream: encoding === "windows-1252" });
}
