import type { Io } from "./io.ts";

/** Marks that a terminal or an editor may act on; JSON may write them as escapes without changing its meaning. */
const marks = /(?!\n)[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/gu;

/** Writes JSON to stdout, with what a terminal might act on as `\u001b`. */
export function printJson(io: Io, json: string): void {
  io.stdout.write(json.endsWith("\n") ? escaped(json) : `${escaped(json)}\n`);
}

function escaped(json: string): string {
  return json.replaceAll(marks, (mark) =>
    Array.from({ length: mark.length }, (_, i) => `\\u${mark.charCodeAt(i).toString(16).padStart(4, "0")}`).join(""),
  );
}
