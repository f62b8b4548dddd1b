import { group } from "d3-array";
import type { Campaign } from "../../campaign/types.ts";
import type { Sketch } from "../../curve/sketch.ts";
import type { CellKey } from "../../protocol/types.ts";
import { agesFigure } from "./agesFigure.ts";
import { budgetFigure } from "./budgetFigure.ts";
import { cellsOf } from "./cellsOf.ts";
import { contrastsFigure } from "./contrastsFigure.ts";
import type { Part } from "./part.ts";
import { propertyFigure } from "./propertyFigure.ts";
import { regimeKey } from "./regimesOf.ts";
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

/** Of one figure, so that it stays legible and below 60 kB: regimes, comparisons, cells times windows. */
const MOST = { regimes: 8, comparisons: 40, rows: 60 };

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
 * import { campaignFigures, exampleCampaign, indexBytes, newJob, protocols, settle, sketch, summarise } from "tg-hydrates";
 * const protocol = settle(protocols.csa);
 * const { name, bytes } = exampleCampaign(1).files.find((file) => file.name.startsWith("M1-sealed-7d"))!;
 * const sketches: (ReturnType<typeof sketch> & { file: string })[] = [];
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
    const own = campaign.ages.filter((row) => row.mix === mix);
    const running = campaign.runs.filter(
      (run) => run.mix === mix && run.role === "specimen" && run.status !== "failed" && curves.has(run.file),
    );
    for (const part of parts(regimesIn(running), MOST.regimes)) {
      figures.push(stackFigure(campaign, sketches, { mix, ...part, ...looks }));
    }
    const { cells, windows } = cellsOf(campaign, mix);
    for (const window of windows) {
      for (const part of parts(regimesIn(own.filter((row) => row.window === window)), MOST.regimes)) {
        figures.push(agesFigure(campaign, { mix, window, ...part, ...looks }));
      }
    }
    figures.push(...comparedFigures(campaign, mix, looks));
    const known = own.some(({ index_u }) => index_u !== null);
    const valued = own.some(({ index }) => !("missing" in index));
    for (const part of parts(cells.length, Math.max(4, Math.floor(MOST.rows / windows.length)))) {
      if (known) figures.push(budgetFigure(campaign, { mix, ...part, ...looks }));
      if (valued) figures.push(sensitivityFigure(campaign, { mix, ...part, ...looks }));
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
  const compared = contrasts.filter((row) => row.mix === mix && row.against === "regime");
  const both = pairs.filter((row) => row.mix === mix);
  return [
    ...[...group(compared, ({ quantity }) => quantity)].flatMap(([quantity, rows]) =>
      parts(rows.length, MOST.comparisons).map((part) =>
        contrastsFigure(campaign, { mix, quantity, ...part, ...looks }),
      ),
    ),
    ...[
      ...group(
        both,
        (row) => row.property,
        (row) => row.quantity,
      ),
    ].flatMap(([property, quantities]) =>
      [...quantities].flatMap(([quantity, rows]) =>
        parts(regimesIn(rows), MOST.regimes).map((part) =>
          propertyFigure(campaign, { mix, property, quantity, ...part, ...looks }),
        ),
      ),
    ),
  ];
}

function regimesIn(rows: readonly Pick<CellKey, "curing" | "curing_d">[]): number {
  return new Set(rows.map(regimeKey)).size;
}

/** So many things in parts of about the same size, none above the most. */
function parts(total: number, most: number): Required<Part>[] {
  const number = Math.ceil(total / most);
  const count = Math.ceil(total / number);
  return Array.from({ length: number }, (_, i) => ({ from: i * count, count }));
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
