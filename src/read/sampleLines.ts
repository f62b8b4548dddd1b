import { lineEnd } from "./lineEnd.ts";
import { longestLine } from "./longestLine.ts";
import type { Text } from "./openText.ts";

/** Below this size all lines are sampled, bytes. */
const small = 3000;
/** Places looked at in larger texts, and lines taken at each. */
const places = 12;
const linesEach = 2;
/** Most lines of a complete sample. */
export const mostSampled: number = 20_000;

/** Lines at places spread evenly over a text (all lines of a small one); blank and overlong lines are left out. */
export function sampleLines(text: Text, options: { everything?: boolean } = {}): string[] {
  const { everything = text.end < small } = options;
  const lines: string[] = [];
  if (everything) {
    let at = 0;
    while (at < text.end && lines.length < mostSampled) at = take(text, at, lines);
    return lines;
  }
  for (let place = 0; place < places; place++) {
    // Off the middle of the parts, so that neither the preamble nor a footer weighs much.
    let at = lineEnd(text, Math.floor(((place + 0.7) * text.end) / (places + 0.5))) + 1;
    for (let i = 0; i < linesEach && at < text.end; i++) at = take(text, at, lines);
  }
  return lines;
}

/** Takes the line that starts at `at`; returns the start of the next. */
function take(text: Text, at: number, lines: string[]): number {
  const end = lineEnd(text, at);
  if (end - at <= longestLine) {
    const line = text.decode(at, end);
    if (line.trim() !== "") lines.push(line);
  }
  return text.bytes[end] === 13 && text.bytes[end + 1] === 10 ? end + 2 : end + 1;
}
