/** What is used of the platform's decoder (WHATWG Encoding); reached without DOM or Node types. */
interface Decoder {
  decode(bytes: Uint8Array, options?: { stream?: boolean }): string;
}
type DecoderClass = new (label: string, options?: { ignoreBOM?: boolean }) => Decoder;

/** Encodings the reader knows. */
export type Encoding = "utf-8" | "utf-16le" | "utf-16be" | "windows-1252";

/** A decoder costs more to make than a line to decode. */
const decoders = new Map<Encoding, Decoder>();

/**
 * Decodes some bytes; never fails (undecodable bytes become U+FFFD).
 *
 * @example
 * ```ts
 * decodeBytes(Uint8Array.of(0xb0, 0x43), "windows-1252"); // "°C"
 * ```
 */
export function decodeBytes(bytes: Uint8Array, encoding: Encoding): string {
  let decoder = decoders.get(encoding);
  if (decoder === undefined) {
    const { TextDecoder } = globalThis as unknown as { TextDecoder: DecoderClass };
    decoder = new TextDecoder(encoding, { ignoreBOM: true });
    decoders.set(encoding, decoder);
  }
  // Node 20 decodes windows-1252 0x80–0x9F as control characters unless it streams; one byte a character leaves no state behind.
  return decoder.decode(bytes, { stream: encoding === "windows-1252" });
}
