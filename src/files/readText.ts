import { decodeBytes } from "../read/decodeBytes.ts";
import { detectEncoding } from "../read/detectEncoding.ts";
import { nameBinary } from "../read/nameBinary.ts";
import { FileError } from "./fileError.ts";
import { readBytes } from "./readBytes.ts";

/** A run sheet of 100,000 rows has about this many bytes. */
const LARGEST = 32_000_000;

/**
 * The text of a small document (run sheet, mix table, protocol), in whatever encoding a spreadsheet or editor wrote it.
 *
 * @param options `name` of the file for messages, @default the path; `wanted`, what it should be, for messages.
 * @throws FileError where the system refuses, where it is no text, or far too long.
 */
export function readText(path: string, options: { name?: string; wanted: string }): string {
  const { name = path, wanted } = options;
  const bytes = readBytes(path, { name });
  if (bytes.length > LARGEST) {
    const size = `${Math.round(bytes.length / 1e6)} MB`;
    throw new FileError("too-large", `${name}: This is no ${wanted}: it has ${size}. Name the right file.`);
  }
  const binary = nameBinary(bytes);
  if (binary !== null) {
    throw new FileError("binary-file", `${name}: This is ${binary}, not text. Save the ${wanted} as text.`);
  }
  const { encoding, start } = detectEncoding(bytes);
  return decodeBytes(bytes.subarray(start), encoding);
}
