import type { Figure } from "../render/figures/types.ts";
import { terminalSafe } from "../render/terminalSafe.ts";

/** A figure in words: title, caption, what is to be seen. */
export function figureText({ title, alt }: Figure, { caption }: { caption?: string } = {}): string {
  return [title, ...(caption === undefined ? [] : [caption]), alt].map((line) => `${terminalSafe(line)}\n`).join("");
}
