import { UnreadableError } from "../errors.ts";
import { decodeBytes, type Encoding } from "./decodeBytes.ts";
import { detectEncoding } from "./detectEncoding.ts";
import { largestFile } from "./largestFile.ts";
import { nameBinary } from "./nameBinary.ts";
import { tooLarge } from "./tooLarge.ts";

/** The bytes of a text file in a form that can be scanned: one byte per ASCII character, others 0x80 and above. */
export interface Text {
  name: string;
  encoding: Encoding;
  /** Scanned for structure and numbers. Of UTF-16 it is a copy with one byte per unit, 0xFF for any beyond ASCII. */
  bytes: Uint8Array;
  /** Past the last byte that counts: padding at the end is left off. */
  end: number;
  /** The characters of a range of `bytes`. */
  decode(from: number, to: number): string;
}

/** How this machine lays out 16-bit units. */
const littleEndian = new Uint8Array(Uint16Array.of(1).buffer)[0] === 1;

/**
 * Opens the bytes of a file as text.
 *
 * @throws UnreadableError `empty-file`, `too-large`, `binary-file`
 */
export function openText(bytes: Uint8Array, name: string): Text {
  if (bytes.length > largestFile) throw tooLarge(bytes.length, name);
  const found = bytes.length === 0 ? null : nameBinary(bytes);
  if (found !== null) {
    throw new UnreadableError("binary-file", `This is ${found}, not text. Export the run as a text table.`, {
      source: name,
    });
  }
  const { encoding, start } = detectEncoding(bytes);
  const text =
    encoding === "utf-16le" || encoding === "utf-16be" ? narrow(bytes, start, encoding) : plain(bytes, start, encoding);
  let end = text.bytes.length;
  // NUL padding and the end-of-file mark of old systems (0x1A) at the end.
  while (end > 0 && (text.bytes[end - 1] === 0 || text.bytes[end - 1] === 0x1a)) end--;
  const opened = { ...text, name, end };
  if (isBlank(opened)) {
    const what = bytes.length === 0 ? "The file is empty" : "The file holds nothing but blanks";
    throw new UnreadableError("empty-file", `${what}. Export the run again.`, { source: name });
  }
  return opened;
}

function plain(bytes: Uint8Array, start: number, encoding: Encoding): Omit<Text, "name" | "end"> {
  const body = start === 0 ? bytes : bytes.subarray(start);
  return { encoding, bytes: body, decode: (from, to) => decodeBytes(body.subarray(from, to), encoding) };
}

/** One byte per unit: numbers and delimiters are ASCII; everything else is looked at in the original. */
function narrow(bytes: Uint8Array, start: number, encoding: Encoding): Omit<Text, "name" | "end"> {
  const length = (bytes.length - start) >> 1;
  // A view of 16-bit units must begin at an even place.
  const even = (bytes.byteOffset + start) % 2 === 0 ? bytes.subarray(start) : bytes.slice(start);
  const units = new Uint16Array(even.buffer, even.byteOffset, length);
  const swapped = (encoding === "utf-16le") !== littleEndian;
  const body = new Uint8Array(length);
  if (swapped) {
    for (let i = 0; i < length; i++) {
      const unit = units[i]!;
      body[i] = (unit & 0xff) === 0 && unit < 0x8000 ? unit >> 8 : 0xff;
    }
  } else {
    for (let i = 0; i < length; i++) {
      const unit = units[i]!;
      body[i] = unit < 0x80 ? unit : 0xff;
    }
  }
  return {
    encoding,
    bytes: body,
    decode: (from, to) => decodeBytes(bytes.subarray(start + 2 * from, start + 2 * to), encoding),
  };
}

function isBlank({ bytes, end }: Text): boolean {
  for (let i = 0; i < end; i++) if (bytes[i]! > 32) return false;
  return true;
}
