import { closeSync, fstatSync, openSync, readSync } from "node:fs";
import { largestFile } from "../read/largestFile.ts";
import { tooLarge } from "../read/tooLarge.ts";
import { fileError } from "./fileError.ts";

/** A pipe does not say how long it is: it is read in pieces of this many bytes. */
const PIECE = 1 << 20;

/**
 * The bytes of a file, never more than a run may have. Synchronous: workers and the loop over files have nothing else to do.
 *
 * @param options `name` of the file for messages. @default the path; `lend`: the bytes are overwritten by the next call that lends.
 * @throws FileError where the system refuses; UnreadableError (`too-large`) before a large file is read.
 */
export function readBytes(path: string, options: { name?: string; lend?: boolean } = {}): Uint8Array {
  const { name = path, lend = false } = options;
  try {
    const file = openSync(path, "r");
    try {
      const stats = fstatSync(file);
      if (stats.size > largestFile) throw tooLarge(stats.size, name);
      return readAll(file, { name, size: stats.isFile() ? stats.size : PIECE, lend });
    } finally {
      closeSync(file);
    }
  } catch (error) {
    throw fileError(error, name);
  }
}

/** Fresh memory for every file costs more than reading it. */
let lent = new Uint8Array(0);

/** Larger files get memory of their own, so that little is kept. */
const MOST_LENT = 1 << 22;

function lentOf(size: number): Uint8Array<ArrayBuffer> {
  if (size > MOST_LENT) return new Uint8Array(size);
  if (lent.length < size) lent = new Uint8Array(Math.min(2 * size, MOST_LENT));
  return lent;
}

/** Reads to the end, which may have moved since the size was asked for. */
function readAll(file: number, { name, size, lend }: { name: string; size: number; lend: boolean }): Uint8Array {
  // One byte more than the size, so that the end is met without another buffer.
  let bytes = lend ? lentOf(size + 1) : new Uint8Array(size + 1);
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
