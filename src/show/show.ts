import { curveFigure } from "../render/figures/curveFigure.ts";
import type { Figure } from "../render/figures/types.ts";
import { display } from "./display.ts";
import { figureBundle } from "./figureBundle.ts";
import { figureText } from "./figureText.ts";
import { kernel } from "./kernel.ts";
import { type Recognised, recognise } from "./recognise.ts";
import type { ShowOptions } from "./types.ts";
import { viewHtml } from "./viewHtml.ts";
import { viewOf } from "./viewOf.ts";
import { viewText } from "./viewText.ts";

/**
 * Shows a value where a person looks: in a Deno notebook as picture or table, elsewhere as text on stdout. Write `await`
 * before it: the cell must not end before its output has left.
 *
 * | value | shown as |
 * | --- | --- |
 * | a curve, a sketch | TG and DTG, with `windows` if given |
 * | a figure, a list of figures | the picture, its specification, and its text |
 * | a run | how it was read |
 * | the result of a run | one row per window with its uncertainty, the flags in sentences |
 * | a list of objects, a CSV text, a table | a table of at most `rows` rows |
 * | a campaign, an indexed folder | the per-age table, flags, failed runs |
 * | decisions | what is shown, in sentences, with its caution |
 * | a protocol | its windows |
 * | other text | as it is |
 *
 * @param value Any of these, or a promise of it; not changed.
 * @param options `caption`, `rows`, `columns` of a table, `windows` of a curve.
 * @returns Nothing, so that a notebook shows it once.
 * @throws TypeError for a value that cannot be shown; RangeError for a column that is not there.
 *
 * @example
 * ```ts
 * import { protocols, show } from "tg-hydrates/notebook";
 * await show(protocols.csa.windows, { caption: "Windows", columns: ["name", "from_C", "to_C", "rule"] });
 * ```
 */
export async function show(value: unknown, options: ShowOptions = {}): Promise<void> {
  const shown = recognise(await value);
  const figures = figuresOf(shown, options);
  if (figures !== null) {
    for (const figure of figures) {
      await display(
        kernel() === null ? { "text/plain": figureText(figure, options) } : await figureBundle(figure, options),
      );
    }
    return;
  }
  const view = viewOf(shown as Parameters<typeof viewOf>[0], options);
  await display({ "text/html": viewHtml(view), "text/plain": viewText(view) });
}

function figuresOf(shown: Recognised, { windows = [] }: ShowOptions): readonly Figure[] | null {
  if (shown.kind === "figures") return shown.value;
  if (shown.kind === "curve" || shown.kind === "sketch") return [curveFigure(shown.value, { windows })];
  return null;
}
