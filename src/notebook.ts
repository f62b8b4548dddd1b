// The public face in a notebook: everything for Node and Deno, the figures, and `show`.

export * from "./node.ts";
export { agesFigure } from "./render/figures/agesFigure.ts";
export { budgetFigure } from "./render/figures/budgetFigure.ts";
export { contrastsFigure } from "./render/figures/contrastsFigure.ts";
export { curveFigure } from "./render/figures/curveFigure.ts";
export { propertyFigure } from "./render/figures/propertyFigure.ts";
export { runFigure } from "./render/figures/runFigure.ts";
export { sensitivityFigure } from "./render/figures/sensitivityFigure.ts";
export { stackFigure } from "./render/figures/stackFigure.ts";
export type { Figure } from "./render/figures/types.ts";
export { show } from "./show/show.ts";
export type { ShowOptions } from "./show/types.ts";
