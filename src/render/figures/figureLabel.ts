import { terminalSafe } from "../terminalSafe.ts";
import { textWidth } from "../textWidth.ts";

/** Made on first need. */
let segmenter: Intl.Segmenter | undefined;

/**
 * A label of the run sheet as a figure writes it: on one line, what would turn or break the line written as `\u{…}`, and no
 * longer than `most` columns (`…` stands for the rest).
 */
export function figureLabel(text: string, most = 40): string {
  const safe = terminalSafe(text);
  if (textWidth(safe) <= most) return safe;
  segmenter ??= new Intl.Segmenter("en", { granularity: "grapheme" });
  let short = "";
  let width = 0;
  for (const { segment } of segmenter.segment(safe)) {
    width += textWidth(segment);
    if (width > most - 1) break;
    short += segment;
  }
  return `${short}…`;
}
