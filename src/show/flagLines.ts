import type { Flag } from "../flags.ts";
import type { Lines } from "./types.ts";

/** Findings as sentences with what to do about them; nothing for none. */
export function flagLines(flags: readonly Flag[]): Lines[] {
  if (flags.length === 0) return [];
  const line = ({ code, severity, sentence, advice, window }: Flag): string =>
    `${severity}: ${sentence} ${advice} (${code}${window === undefined ? "" : `, ${window}`})`;
  return [{ heading: "Flags", lines: [...new Set(flags.map(line))] }];
}
