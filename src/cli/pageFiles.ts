import type { Campaign, Plan } from "../campaign/types.ts";
import type { Sketch } from "../curve/sketch.ts";
import { DrawError } from "../draw/drawError.ts";
import { drawPng } from "../draw/drawPng.ts";
import { drawSvg } from "../draw/drawSvg.ts";
import type { OutputFile } from "../files/writeOutputs.ts";
import { campaignFigures } from "../render/figures/campaignFigures.ts";
import type { DrawnFigure } from "../render/figures/types.ts";
import { reportPage } from "../render/report/reportPage.ts";
import { UsageError } from "./usageError.ts";

/** Which figures are drawn, and whether as PNG too. */
export interface FigureChoice {
  /** `none` (or false, as commander says for --no-figures): no figure; `campaign`: what all runs together say; `all`: every run besides. */
  figures?: string | false;
  png?: boolean;
}

/** What the page is made of beside the choice of figures. */
export interface PageInput {
  /** Asked for only where figures are drawn. */
  sketches: () => readonly (Sketch & { file: string })[];
  /** Folder or file that was asked for. */
  source: string;
  plan?: Pick<Plan, "unlisted" | "remarks">;
  remarks?: string[];
  /** Stops the drawing. */
  signal?: AbortSignal;
  /** Is told after every figure how many are drawn. */
  onProgress?: (done: number, total: number) => void;
}

/**
 * Finds before the work what would stop it at its end.
 *
 * @throws UsageError for figures or PNG without a folder for them, for PNG without figures or without the package that makes them.
 */
export async function checkFigures(choice: FigureChoice & { out?: string | undefined }): Promise<void> {
  const { figures, out } = choice;
  if (out === undefined && figures !== undefined && wantsFigures({ figures })) {
    throw new UsageError(`--figures ${figures}: Name a folder for the figures: --out FOLDER.`);
  }
  if (!choice.png) return;
  if (choice.out === undefined) throw new UsageError("--png: Name a folder for the figures: --out FOLDER.");
  if (!wantsFigures(choice)) {
    throw new UsageError("--png: There is no figure to make a PNG of. Leave out --no-figures.");
  }
  await drawPng('<svg xmlns="http://www.w3.org/2000/svg" width="1" height="1"/>').catch((error: unknown) => {
    throw error instanceof DrawError ? new UsageError(`--png: ${error.message}`) : error;
  });
}

/** Whether any figure is wanted. */
function wantsFigures({ figures = "campaign" }: FigureChoice): boolean {
  return figures !== false && figures !== "none";
}

/**
 * report.html and figures/*.svg (and *.png) for an output folder. Where the packages that draw are not there, the report says so in
 * place of the figures.
 *
 * @returns `missing`: for the terminal, how many figures were not drawn and why; null where all were.
 * @throws The reason of the signal, after the figure that was being drawn.
 */
export async function pageFiles(
  campaign: Campaign,
  choice: FigureChoice,
  { sketches, source, plan, remarks = [], signal, onProgress }: PageInput,
): Promise<{ files: OutputFile[]; missing: string | null }> {
  const { figures, png = false } = choice;
  const wanted = wantsFigures(choice)
    ? campaignFigures(campaign, sketches(), { which: figures === "all" ? "all" : "campaign" })
    : [];
  const drawn: DrawnFigure[] = [];
  const files: OutputFile[] = [];
  let missing: string | null = null;
  for (const figure of wanted) {
    // Signals and timers get their turn between two figures.
    await new Promise<void>((turn) => setImmediate(turn));
    signal?.throwIfAborted();
    try {
      const svg = await drawSvg(figure.spec, figure);
      drawn.push({ ...figure, svg });
      files.push({ name: `figures/${figure.name}.svg`, content: svg });
      if (png) files.push({ name: `figures/${figure.name}.png`, content: await drawPng(svg, { dpi: 300 }) });
    } catch (error) {
      if (!(error instanceof DrawError)) throw error;
      missing ??= error.message;
      drawn.push({ ...figure, missing: error.message });
    }
    onProgress?.(drawn.length, wanted.length);
  }
  const page = reportPage({ campaign, figures: drawn, source, remarks, ...(plan ? { plan } : {}) });
  const undrawn = drawn.filter((figure) => "missing" in figure).length;
  const sentence = missing === null ? null : `${undrawn} of ${drawn.length} figures were not drawn. ${missing}`;
  return { files: [...files, { name: "report.html", content: page }], missing: sentence };
}
