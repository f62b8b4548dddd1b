import type { AgeRow, Campaign } from "../../campaign/types.ts";
import { listWords } from "../../compare/words.ts";
import { cellPanels } from "./cellPanels.ts";
import { cellsOf } from "./cellsOf.ts";
import { channel, marksOf } from "./channel.ts";
import { figureLabel } from "./figureLabel.ts";
import { figureName } from "./figureName.ts";
import type { KeyItem } from "./keyStrip.ts";
import { type Part, part } from "./part.ts";
import { regimesOf } from "./regimesOf.ts";
import { type FigureOptions, theme } from "./theme.ts";
import type { Figure, Json } from "./types.ts";

/** Options of {@link budgetFigure}; the part is one of the cells. */
export interface BudgetFigureOptions extends FigureOptions, Part {
  mix: string | null;
  /** @default every window of the mix */
  windows?: readonly string[];
}

/** Of the causes from left to right: neighbours differ in lightness by 15 and more, any two of the first five by 8. */
export const fills: readonly string[] = ["#3f1841", "#c9d3da", "#7c0403", "#129cd8", "#566965", "#e9dcc3", "#6c06d1"];

/**
 * What the uncertainty of each index comes from: shares of its variance by cause, which add up to 100 %, and beside the bar the
 * standard uncertainty itself. Shares of u would not add up. A cell whose budget is not known has no bar.
 *
 * @throws RangeError for a mix that the campaign does not have.
 *
 * @example
 * ```ts
 * import { budgetFigure, exampleCampaign, indexBytes, planRuns, protocols, settle, summarise } from "tg-hydrates";
 * const { files } = exampleCampaign(1, { size: "small" });
 * const bytesOf = (name: string) => files.find((file) => file.name === name)!.bytes;
 * const sheet = { name: "sheet.csv", text: new TextDecoder().decode(bytesOf("sheet.csv")) };
 * const protocol = settle(protocols.csa);
 * const { jobs } = planRuns({ sheet, files: files.map(({ name }) => name) });
 * const campaign = summarise(jobs.map((job) => indexBytes(bytesOf(job.file), job, { protocol })), { protocol });
 * const mix = campaign.ages[0]!.mix;
 * const figure = budgetFigure(campaign, { mix, windows: ["ah3"] });
 * if (!figure.alt.includes("ah3")) throw new Error("the text names the window");
 * ```
 */
export function budgetFigure(
  campaign: Pick<Campaign, "ages" | "runs" | "protocol" | "decisions">,
  options: BudgetFigureOptions,
): Figure {
  const { mix, width } = options;
  const { cells: list, windows: all, find } = cellsOf(campaign, mix);
  const taken = part(list, options, "cells");
  const cells = taken.items;
  const windows = options.windows ?? all;
  const size = theme(width);
  const rows = windows.flatMap((window) => cells.flatMap((cell) => find(cell, window) ?? []));
  const budgets = new Map(rows.map((row) => [row, sharesOf(row)]));
  // A cause has the same colour in all figures of a campaign.
  const every = [
    ...new Set(
      campaign.ages.flatMap(({ index }) => ("missing" in index ? [] : index.terms.map(({ cause }) => causeOf(cause)))),
    ),
  ].sort();
  const seen = new Set([...budgets.values()].flatMap((shares) => [...(shares?.keys() ?? [])]));
  const causes = every.flatMap((cause, i) => (seen.has(cause) ? [{ cause, fill: fills[i % fills.length]! }] : []));
  const key: KeyItem[] = causes.map(({ cause, fill }) => ({ label: figureLabel(cause, 24), box: fill }));
  key.push({ label: "at the end of a bar: u / (g/100 g)" });
  const draw = (
    window: string,
    { rows: place, length }: { rows: { y: Json; step: number }; length: number },
  ): Json[] => {
    const x = channel("s", {
      domain: [0, 100],
      axis: { title: "share of variance / %", values: marksOf([0, 100], length, size, "x") },
    });
    const bars: Json[] = [];
    const sums: Json[] = [];
    for (const [r, cell] of cells.entries()) {
      const row = find(cell, window);
      const shares = row && budgets.get(row);
      if (!shares) {
        sums.push({ r, u: "–" });
        continue;
      }
      let from = 0;
      for (const { cause, fill } of causes) {
        const share = shares.get(cause) ?? 0;
        if (share >= 0.05) bars.push({ r, s: rounded(from), e: rounded(from + share), c: fill });
        from += share;
      }
      sums.push({ r, u: twoDigits(row.index_u!) });
    }
    return [
      {
        data: { values: bars },
        mark: { type: "rule", strokeWidth: Math.round(place.step * 0.62 * 10) / 10 },
        encoding: { x, x2: { field: "e" }, y: place.y, color: { field: "c", type: "nominal", scale: null } },
      },
      {
        data: { values: sums },
        mark: { type: "text", align: "left", baseline: "middle" },
        encoding: { x: { value: length + 4 }, y: place.y, text: { field: "u", type: "nominal" } },
      },
      // The scale stands even where no bar does.
      { data: { values: [{ s: 0, r: 0 }] }, mark: { type: "point", opacity: 0, size: 0 }, encoding: { x, y: place.y } },
    ];
  };
  const of = `${mix === null ? "" : `, mix ${figureLabel(mix)}`}${taken.words}`;
  const title = `Where the uncertainty comes from${of}`;
  const alt = `Shares of the variance of each index by cause${of}. ${windows.map((window) => said(window, rows, budgets)).join(" ")}`;
  return {
    name: figureName("budget", mix ?? "no-mix", options.windows?.join("-") ?? null, taken.name),
    kind: "budget",
    title,
    alt,
    spec: cellPanels({
      theme: size,
      cells,
      windows,
      looks: regimesOf(campaign, size.label),
      key,
      beside: size.font * 2.9,
      draw,
      title,
      alt,
    }),
  };
}

/** Shares of variance by cause, %; null where no budget is known. Effects of one key are one error and are added before squaring. */
function sharesOf({ index, index_u }: AgeRow): Map<string, number> | null {
  if ("missing" in index || index_u === null) return null;
  const byKey = new Map<string, { cause: string; effect: number }>();
  for (const { cause, effect, key } of index.terms) {
    byKey.set(key, { cause: causeOf(cause), effect: (byKey.get(key)?.effect ?? 0) + effect });
  }
  const byCause = new Map<string, number>();
  let sum = 0;
  for (const { cause, effect } of byKey.values()) {
    byCause.set(cause, (byCause.get(cause) ?? 0) + effect * effect);
    sum += effect * effect;
  }
  if (sum === 0) return null;
  return new Map([...byCause].map(([cause, part]) => [cause, (100 * part) / sum]));
}

/** `temperature, curvature` is a part of `temperature`. */
function causeOf(cause: string): string {
  return cause.split(",")[0]!;
}

function said(
  window: string,
  rows: readonly AgeRow[],
  budgets: ReadonlyMap<AgeRow, Map<string, number> | null>,
): string {
  const own = rows.flatMap((row) =>
    row.window === window && budgets.get(row) ? [{ row, shares: budgets.get(row)! }] : [],
  );
  const name = figureLabel(window);
  if (own.length === 0) return `${name}: no budget is known.`;
  const us = own.map(({ row }) => row.index_u!);
  const leading = new Map<string, number>();
  for (const { shares } of own) {
    const [first] = [...shares].sort((a, b) => b[1] - a[1]);
    leading.set(first![0], (leading.get(first![0]) ?? 0) + 1);
  }
  const lead = [...leading].sort((a, b) => b[1] - a[1]).map(([cause, n]) => `${figureLabel(cause)} in ${n}`);
  const [lo, hi] = [twoDigits(Math.min(...us)), twoDigits(Math.max(...us))];
  const u = lo === hi ? lo : `${lo} to ${hi}`;
  return `${name}: u ${u} g/100 g, the largest share of ${own.length} ${own.length === 1 ? "cell" : "cells"}: ${listWords(lead)}.`;
}

function twoDigits(u: number): string {
  const text = u.toPrecision(2);
  return text.includes("e") ? String(Number(text)) : text;
}

function rounded(value: number): number {
  return Math.round(value * 100) / 100;
}
