import { textWidth } from "../textWidth.ts";

/** About how wide a text is in a sans-serif face, px: 0.56 of its height per column, somewhat more than the mean letter takes. */
export function textPx(text: string, font: number): number {
  return textWidth(text) * font * 0.56;
}
