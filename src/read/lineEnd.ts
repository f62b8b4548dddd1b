import type { Text } from "./openText.ts";

/** Index of the line break (or the end of the text) at or after `at`. */
export function lineEnd({ bytes, end }: Pick<Text, "bytes" | "end">, at: number): number {
  let i = at;
  while (i < end && bytes[i] !== 10 && bytes[i] !== 13) i++;
  return i;
}
