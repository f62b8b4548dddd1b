/** East Asian wide and emoji (Unicode Standard Annex 11, the blocks that are wide throughout), which take two columns. */
const wide =
  /^(?:[\u1100-\u115f\u2e80-\u303e\u3041-\ua4cf\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe4f\uff00-\uff60\uffe0-\uffe6]|[\u{1f300}-\u{1f64f}\u{1f680}-\u{1f6ff}\u{1f900}-\u{1f9ff}\u{20000}-\u{3fffd}])/u;

/** Made on first need: most tables are plain ASCII. */
let segmenter: Intl.Segmenter | undefined;

/** Columns that a text takes in a terminal: letters with their accents count once, wide ones twice. */
export function textWidth(text: string): number {
  if (/^[ -~]*$/.test(text)) return text.length;
  segmenter ??= new Intl.Segmenter("en", { granularity: "grapheme" });
  let width = 0;
  for (const { segment } of segmenter.segment(text)) width += wide.test(segment) ? 2 : 1;
  return width;
}
