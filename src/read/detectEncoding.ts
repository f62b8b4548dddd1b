import type { Encoding } from "./decodeBytes.ts";

/** Bytes looked at to tell UTF-16 by its zero bytes. */
const looked = 4096;

/** Encoding by byte-order mark, else UTF-16 by its zero bytes, else strict UTF-8, else windows-1252; `start` skips the mark. */
export function detectEncoding(bytes: Uint8Array): { encoding: Encoding; start: number } {
  if (bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf) {
    return { encoding: isUtf8(bytes, 3) ? "utf-8" : "windows-1252", start: 3 };
  }
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return { encoding: "utf-16le", start: 2 };
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return { encoding: "utf-16be", start: 2 };
  const wide = wideOrder(bytes);
  if (wide !== null) return { encoding: wide, start: 0 };
  return { encoding: isUtf8(bytes, 0) ? "utf-8" : "windows-1252", start: 0 };
}

/** Text of numbers in UTF-16 has a zero in every second byte; padding has zeros in both. */
function wideOrder(bytes: Uint8Array): Encoding | null {
  const length = Math.min(bytes.length, looked) & ~1;
  let even = 0;
  let odd = 0;
  for (let i = 0; i < length; i += 2) {
    if (bytes[i] === 0) even++;
    if (bytes[i + 1] === 0) odd++;
  }
  const many = 0.3 * (length >> 1);
  if (odd > many && even < odd / 8) return "utf-16le";
  if (even > many && odd < even / 8) return "utf-16be";
  return null;
}

/** Well-formed UTF-8 (Unicode Standard, table 3-7); a sequence cut off by the end of the file is forgiven. */
function isUtf8(bytes: Uint8Array, start: number): boolean {
  const length = bytes.length;
  // Nearly everything is ASCII: sixteen bytes at once, in words of four where they lie in memory.
  const aligned = (bytes.byteOffset + 3) & ~3;
  const words = new Uint32Array(bytes.buffer, aligned, Math.max(0, (bytes.byteOffset + length - aligned) >> 2));
  const before = aligned - bytes.byteOffset;
  let i = start;
  while (i < length) {
    if (((i - before) & 3) === 0 && i >= before) {
      let word = (i - before) >> 2;
      while (word + 4 <= words.length) {
        if (((words[word]! | words[word + 1]! | words[word + 2]! | words[word + 3]!) & 0x80808080) !== 0) break;
        word += 4;
      }
      i = before + 4 * word;
      if (i >= length) break;
    }
    const first = bytes[i]!;
    if (first < 0x80) {
      i++;
      continue;
    }
    const count = following(first);
    if (count === 0) return false;
    if (i + 1 >= length) return true;
    const second = bytes[i + 1]!;
    const low = first === 0xe0 ? 0xa0 : first === 0xf0 ? 0x90 : 0x80;
    const high = first === 0xed ? 0x9f : first === 0xf4 ? 0x8f : 0xbf;
    if (second < low || second > high) return false;
    for (let k = 2; k <= count; k++) {
      if (i + k >= length) return true;
      if ((bytes[i + k]! & 0xc0) !== 0x80) return false;
    }
    i += count + 1;
  }
  return true;
}

/** Bytes that follow the first one of a character beyond ASCII; 0 where none begins so. */
function following(first: number): number {
  if (first >= 0xc2 && first <= 0xdf) return 1;
  if ((first & 0xf0) === 0xe0) return 2;
  return first >= 0xf0 && first <= 0xf4 ? 3 : 0;
}
