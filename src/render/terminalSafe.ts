/**
 * Controls (escape sequences begin with one), line and paragraph separators, invisible marks that hide text or turn the
 * direction of writing (Unicode Standard Annex 9), unpaired surrogates. The joiners inside words and emoji may stay.
 */
const unsafe = /(?![\u200c\u200d])[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/gu;

/**
 * Text of a stranger for one line of a terminal: what would move the cursor, change colours, break the line or turn the
 * direction is written as `\u{1b}`. Everything else, accents, emoji and all scripts, stays.
 *
 * @example
 * ```ts
 * import { terminalSafe } from "tg-hydrates";
 * if (terminalSafe("A\u001b[31m") !== "A\\u{1b}[31m") throw new Error("no colour from a label");
 * ```
 */
export function terminalSafe(text: string): string {
  return text.replaceAll(unsafe, (character) => `\\u{${character.codePointAt(0)!.toString(16)}}`);
}
