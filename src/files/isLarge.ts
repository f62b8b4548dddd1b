import { statSync } from "node:fs";
import { resolve } from "node:path";

/** A file of so many bytes keeps a thread for a third of a second: no signal would be heard meanwhile. */
const LARGE = 8_000_000;

/** Whether a file is left to a worker, so that the calling thread answers to signals; one that is not there is quickly done with. */
export function isLarge(folder: string, file: string): boolean {
  return (statSync(resolve(folder, file), { throwIfNoEntry: false })?.size ?? 0) > LARGE;
}
