import type { Campaign } from "../../campaign/types.ts";
import type { Sketch } from "../../curve/sketch.ts";
import { agesFigure } from "./agesFigure.ts";
import { budgetFigure } from "./budgetFigure.ts";
import { cellsOf } from "./cellsOf.ts";
import { contrastsFigure } from "./contrastsFigure.ts";
import { propertyFigure } from "./propertyFigure.ts";
import { runFigure } from "./runFigure.ts";
import { sensitivityFigure } from "./sensitivityFigure.ts";
import { stackFigure } from "./stackFigure.ts";
import type { FigureOptions } from "./theme.ts";
import type { Figure } from "./types.ts";

/** Options of {@link campaignFigures}. */
export interface CampaignFiguresOptions extends FigureOptions {
  /** `campaign`: what all runs together say; `all`: besides, every run. @default "campaign" */
  which?: "campaign" | "all";
}

/** Cells times windows of one figure: what stays legible on a page and below 60 kB. */
const MOST_ROWS = 60;

/**
 * The figures of a campaign, not drawn yet: curves by age, indices against age, contrasts and properties (once compared),
 * uncertainty budgets, window sensitivity; with `which: "all"` also TG and DTG of every run. Failed runs, and cells without
 * a value, have none; a campaign without specimens has no figure but those of its runs.
 *
 * @param sketches TG and DTG as `indexFolder` and {@link sketch} give them, with the name of the file.
 * @returns Each with a name that no other has, capital letters or not.
 *
 * @example
 * ```ts
 * import { exampleCampaign, indexBytes, newJob, protocols, settle, type Sketch, sketch, summarise } from "tg-hydrates";
 * const protocol = settle(protocols.csa);
 * const { name, bytes } = exampleCampaign().files.find((file) => file.name.startsWith("M1-sealed-7d"))!;
 * const sketches: (Sketch & { file: string })[] = [];
 * const result = indexBytes(bytes, newJob(name, { mix: "M1", curing: "sealed", age_min: 7 * 1440 }), {
 *   protocol,
 *   onCurve: (curve) => sketches.push({ file: name, ...sketch(curve) }),
 * });
 * const campaign = summarise([result], { protocol, mixes: [] });
 * const figures = campaignFigures(campaign, sketches, { which: "all" });
 * if (figures.at(-1)?.kind !== "run") throw new Error("the runs come last");
 * ```
 */
export function campaignFigures(
  campaign: Campaign,
  sketches: readonly (Sketch & { file: string })[],
  options: CampaignFiguresOptions = {},
): Figure[] {
  const { which = "campaign", ...looks } = options;
  const figures: Figure[] = [];
  const mixes = [...new Set(campaign.ages.map(({ mix }) => mix))];
  const curves = new Map(sketches.map((sketch) => [sketch.file, sketch]));
  for (const mix of mixes) {
    const drawable = campaign.runs.some(
      (run) => run.mix === mix && run.role === "specimen" && run.status !== "failed" && curves.has(run.file),
    );
    if (drawable) figures.push(stackFigure(campaign, sketches, { mix, ...looks }));
    const { cells, windows } = cellsOf(campaign, mix);
    for (const window of windows) figures.push(agesFigure(campaign, { mix, window, ...looks }));
    figures.push(...comparedFigures(campaign, mix, looks));
    const count = Math.max(4, Math.floor(MOST_ROWS / windows.length));
    const known = campaign.ages.some((row) => row.mix === mix && row.index_u !== null);
    const valued = campaign.ages.some((row) => row.mix === mix && !("missing" in row.index));
    for (let from = 0; from < cells.length; from += count) {
      const part = { mix, from, count, ...looks };
      if (known) figures.push(budgetFigure(campaign, part));
      if (valued) figures.push(sensitivityFigure(campaign, part));
    }
  }
  for (const run of which === "all" ? campaign.runs : []) {
    const curve = curves.get(run.file);
    if (run.status !== "failed" && curve) figures.push(runFigure(run, curve, campaign.protocol, looks));
  }
  return withOwnNames(figures);
}

/** What `compare` brought, in the order of its tables. */
function comparedFigures(campaign: Campaign, mix: string | null, looks: FigureOptions): Figure[] {
  const { contrasts = [], pairs = [] } = campaign.decisions ?? {};
  const quantities = new Set(
    contrasts.filter((row) => row.mix === mix && row.against === "regime").map(({ quantity }) => quantity),
  );
  const together = new Map(
    pairs.filter((row) => row.mix === mix).map((row) => [JSON.stringify([row.property, row.quantity]), row]),
  );
  return [
    ...[...quantities].map((quantity) => contrastsFigure(campaign, { mix, quantity, ...looks })),
    ...[...together.values()].map(({ property, quantity }) =>
      propertyFigure(campaign, { mix, property, quantity, ...looks }),
    ),
  ];
}

/** Names that differ only by a label's lost letters, or by capitals, get a number. */
function withOwnNames(figures: readonly Figure[]): Figure[] {
  const taken = new Set<string>();
  return figures.map((figure) => {
    let name = figure.name;
    for (let n = 2; taken.has(name); n++) name = `${figure.name}-${n}`;
    taken.add(name);
    return { ...figure, name };
  });
}
