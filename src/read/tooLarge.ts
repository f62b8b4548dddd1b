import { UnreadableError } from "../errors.ts";
import { largestFile } from "./largestFile.ts";

/** The error for a file above the limit, before or after its bytes are in memory. */
export function tooLarge(size: number, name: string): UnreadableError {
  const megabytes = (bytes: number): string => `${Math.round(bytes / 1e6)} MB`;
  const message = `The file has ${megabytes(size)}; the limit is ${megabytes(largestFile)}. Export one run per file, or fewer readings.`;
  return new UnreadableError("too-large", message, { source: name });
}
