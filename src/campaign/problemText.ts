import type { Problem } from "./types.ts";

/** A problem in one line: source, line, column and what to do. */
export function problemText({ source, line, column, message }: Problem): string {
  const place = [source, line === undefined ? "" : `line ${line}`, column === undefined ? "" : `column ${column}`];
  return `${place.filter(Boolean).join(", ")}: ${message}`;
}
