import type { DrawnFigure, FigureKind } from "../figures/types.ts";
import { counted } from "./counted.ts";
import { figureMarkup } from "./figureMarkup.ts";
import { type Content, html } from "./html.ts";
import type { Section } from "./section.ts";

/** More figures of single runs than this make a page too heavy to open. */
const MOST_RUNS = 60;

const kinds: Record<FigureKind, string> = {
  stack: "TG and DTG curves",
  ages: "Indices by age",
  contrasts: "Differences from the reference",
  property: "Properties and hydrates",
  budget: "Where the uncertainty comes from",
  sensitivity: "What edges and rule do",
  run: "Single runs",
};

/** The figures by what they show, those of single runs last; null without any. */
export function figuresSection(figures: readonly DrawnFigure[]): Section | null {
  if (figures.length === 0) return null;
  const order = [...new Set([...(Object.keys(kinds) as FigureKind[]), ...figures.map(({ kind }) => kind)])];
  let number = 0;
  const one = (figure: DrawnFigure): Content => {
    number++;
    return figureMarkup(figure, number);
  };
  const part = (kind: FigureKind): Content => {
    const own = figures.filter((figure) => figure.kind === kind);
    if (own.length === 0) return "";
    const heading = html`<h3>${kinds[kind] ?? kind}</h3>\n`;
    if (kind !== "run") return html`${heading}${own.map(one)}`;
    const left = own.length - MOST_RUNS;
    return html`${heading}<details class="singles"><summary>Curves of ${counted(Math.min(own.length, MOST_RUNS), "run")}</summary>
${own.slice(0, MOST_RUNS).map(one)}</details>
${left > 0 && html`<p class="aside">${left} more: they stand in the folder figures.</p>\n`}`;
  };
  return { id: "figures", heading: "Figures", content: order.map(part) };
}
