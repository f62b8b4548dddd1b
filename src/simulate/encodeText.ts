/** Encodings in which tables of numbers are written. */
export type TextEncoding = "utf-8" | "utf-16le" | "utf-16be" | "windows-1252";

/**
 * Text as bytes. Written out because the core knows neither Node's nor a browser's encoders, and those know only UTF-8.
 *
 * @param options `byteOrderMark`: begin with U+FEFF. @default false
 * @throws {RangeError} A character that windows-1252 does not have.
 */
export function encodeText(
  text: string,
  encoding: TextEncoding,
  options: { byteOrderMark?: boolean } = {},
): Uint8Array<ArrayBuffer> {
  const { byteOrderMark = false } = options;
  const bytes: number[] = [];
  if (byteOrderMark && encoding === "windows-1252") {
    throw new RangeError("Leave out the byte order mark: windows-1252 has none");
  }
  for (const character of byteOrderMark ? `\uFEFF${text}` : text) write(character, encoding, bytes);
  return Uint8Array.from(bytes);
}

function write(character: string, encoding: TextEncoding, bytes: number[]): void {
  const point = character.codePointAt(0)!;
  if (encoding === "utf-8") {
    if (point < 0x80) bytes.push(point);
    else if (point < 0x800) bytes.push(0xc0 | (point >> 6), 0x80 | (point & 63));
    else if (point < 0x10000) bytes.push(0xe0 | (point >> 12), 0x80 | ((point >> 6) & 63), 0x80 | (point & 63));
    else {
      bytes.push(0xf0 | (point >> 18), 0x80 | ((point >> 12) & 63), 0x80 | ((point >> 6) & 63), 0x80 | (point & 63));
    }
  } else if (encoding === "windows-1252") {
    const special = windows1252.indexOf(character);
    if (special >= 0) bytes.push(0x80 + special);
    else if (point < 0x80 || (point >= 0xa0 && point < 0x100)) bytes.push(point);
    else throw new RangeError(`Choose another encoding: windows-1252 has no character "${character}"`);
  } else {
    for (let i = 0; i < character.length; i++) {
      const unit = character.charCodeAt(i);
      if (encoding === "utf-16le") bytes.push(unit & 0xff, unit >> 8);
      else bytes.push(unit >> 8, unit & 0xff);
    }
  }
}

/** 0x80…0x9F of windows-1252 (WHATWG Encoding Standard, index windows-1252); the five unassigned are controls. */
const windows1252 = "€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ";
