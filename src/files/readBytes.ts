import { closeSync, fstatSync, openSync, readSync } from "node:fs";
import { largestFile } from "../read/largestFile.ts";
import { tooLarge } from "../read/tooLarge.ts";
import { fileError } from "./fileError.ts";

/** A pipe does not say how long it is: it is read in pieces of this many bytes. */
const PIECE = 1 << 20;

/**
 * The bytes of a file, never more than a run may have. Synchronous: workers and the loop over files have nothing else to do.
 *
 * @param options `name` of the file for messages. @default the path
 * @throws FileError where the system refuses; UnreadableError (`too-large`) before a large file is read.
 */
export function readBytes(path: string, options: { name?: string } = {}): Uint8Array {
  const { name = path } = options;
  try {
    const file = openSync(path, "r");
    try {
      const stats = fstatSync(file);
      if (stats.size > largestFile) throw tooLarge(stats.size, name);
      return readAll(file, { name, size: stats.isFile() ? stats.size : PIECE });
    } finally {
      closeSync(file);
    }
  } catch (error) {
    throw fileError(error, name);
  }
}

/** Reads to the end, which may have moved since the size was asked for. */
function readAll(file: number, { name, size }: { name: string; size: number }): Uint8Array {
  // One byte more than the size, so that the end is met without another buffer.
  let bytes = new Uint8Array(size + 1);
  let filled = 0;
  for (;;) {
    const count = readSync(file, bytes, filled, bytes.length - filled, null);
    if (count === 0) return bytes.subarray(0, filled);
    filled += count;
    if (filled > largestFile) throw tooLarge(filled, name);
    if (filled === bytes.length) {
      const larger = new Uint8Array(Math.min(2 * bytes.length, largestFile + 1) + PIECE);
      larger.set(bytes);
      bytes = larger;
    }
  }
}
