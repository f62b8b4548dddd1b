import { figureLabel } from "./figureLabel.ts";

/** Labels of several things that stand in one figure: those that would be equal once shortened keep apart by a number. */
export function labelsOf(texts: readonly string[], most?: number): string[] {
  const seen = new Map<string, number>();
  return texts.map((text) => {
    const label = figureLabel(text, most);
    const count = (seen.get(label) ?? 0) + 1;
    seen.set(label, count);
    return count === 1 ? label : `${label} (${count})`;
  });
}
