import { ageWords } from "../../campaign/ageWords.ts";
import type { AgeRow, Campaign } from "../../campaign/types.ts";
import { cellKey } from "../../compare/cellKey.ts";
import { indexCells } from "../../compare/indexCells.ts";
import { regimeWords } from "../../compare/words.ts";
import type { ShiftedIndices } from "../../protocol/types.ts";
import { decimalsFor, signed } from "../decisionWords.ts";
import { cellPanels } from "./cellPanels.ts";
import { cellsOf } from "./cellsOf.ts";
import { channel, marksOf } from "./channel.ts";
import { domainOf } from "./domainOf.ts";
import { figureLabel } from "./figureLabel.ts";
import { figureName } from "./figureName.ts";
import { type Part, part } from "./part.ts";
import { regimesOf } from "./regimesOf.ts";
import { type FigureOptions, INK, SHADE, SOFT, theme } from "./theme.ts";
import type { Figure, Json } from "./types.ts";

/** Options of {@link sensitivityFigure}; the part is one of the cells. */
export interface SensitivityFigureOptions extends FigureOptions, Part {
  mix: string | null;
  /** @default every window of the mix */
  windows?: readonly string[];
}

/**
 * One edge moved one way: symbol pointing that way, the lower edge filled; each at its own height in the row, as a share of it, since
 * near zero they stand at one place.
 */
const moves: { move: keyof ShiftedIndices; label: string; shape: string; filled: boolean; at: number }[] = [
  { move: "from_down", label: "lower edge −5 °C", shape: "triangle-left", filled: true, at: -0.33 },
  { move: "from_up", label: "lower edge +5 °C", shape: "triangle-right", filled: true, at: -0.11 },
  { move: "to_down", label: "upper edge −5 °C", shape: "triangle-left", filled: false, at: 0.11 },
  { move: "to_up", label: "upper edge +5 °C", shape: "triangle-right", filled: false, at: 0.33 },
];

/**
 * How much each index changes when one edge of its window moves by 5 °C, beside its 95 % interval: a change beyond the shading is
 * larger than the stated uncertainty. Means over the same specimens as the index; moves that a run does not cover are left out.
 *
 * @throws RangeError for a mix that the campaign does not have.
 *
 * @example
 * ```ts
 * import { exampleCampaign, indexBytes, planRuns, protocols, sensitivityFigure, settle, summarise } from "tg-hydrates";
 * const { files } = exampleCampaign(1, { size: "small" });
 * const bytesOf = (name: string) => files.find((file) => file.name === name)!.bytes;
 * const sheet = { name: "sheet.csv", text: new TextDecoder().decode(bytesOf("sheet.csv")) };
 * const protocol = settle(protocols.csa);
 * const { jobs } = planRuns({ sheet, files: files.map(({ name }) => name) });
 * const campaign = summarise(jobs.map((job) => indexBytes(bytesOf(job.file), job, { protocol })), { protocol });
 * const mix = campaign.ages[0]!.mix;
 * const figure = sensitivityFigure(campaign, { mix, windows: ["ah3"] });
 * if (!figure.alt.includes("ah3")) throw new Error("the text names the window");
 * ```
 */
export function sensitivityFigure(
  campaign: Pick<Campaign, "ages" | "runs" | "protocol" | "decisions">,
  options: SensitivityFigureOptions,
): Figure {
  const { mix, width } = options;
  const { cells: list, windows: all, find } = cellsOf(campaign, mix);
  const taken = part(list, options, "cells");
  const cells = taken.items;
  const windows = options.windows ?? all;
  const size = theme(width);
  const changes = changesOf(campaign, windows);
  const change = (row: AgeRow, move: keyof ShiftedIndices): number | null =>
    changes.get(JSON.stringify([cellKey(row), row.window, move])) ?? null;
  const rowsOf = (window: string): { r: number; row: AgeRow }[] =>
    cells.flatMap((cell, r) => {
      const row = find(cell, window);
      return row ? [{ r, row }] : [];
    });
  const halfOf = ({ index_lo95: lo, index_hi95: hi }: AgeRow): number | null =>
    lo === null || hi === null ? null : (hi - lo) / 2;
  const draw = (
    window: string,
    { rows: place, length }: { rows: { y: Json; step: number }; length: number },
  ): Json[] => {
    const own = rowsOf(window);
    const half = own.flatMap(({ r, row }) => {
      const value = halfOf(row);
      return value === null ? [] : [{ r, d: -short(value), e: short(value) }];
    });
    const signs = own.flatMap(({ r, row }) =>
      moves.flatMap(({ move, shape, filled, at }) => {
        const d = change(row, move);
        return d === null ? [] : [{ r: r + at, d: short(d), m: shape, f: filled ? INK : "#ffffff" }];
      }),
    );
    const domain = domainOf([...signs.map(({ d }) => d), ...half.flatMap(({ d, e }) => [d, e])], { zero: true });
    const x = channel("d", {
      domain,
      axis: { title: "change / (g/100 g)", values: marksOf(domain, length, size, "x") },
    });
    return [
      {
        data: { values: half },
        mark: { type: "rule", strokeWidth: place.step - 1.5, color: SHADE },
        encoding: { x, x2: { field: "e" }, y: place.y },
      },
      { data: { values: [{ d: 0 }] }, mark: { type: "rule", strokeWidth: 0.7, color: SOFT }, encoding: { x } },
      {
        data: { values: signs },
        mark: { type: "point", size: 16, strokeWidth: 0.8, stroke: INK, opacity: 1 },
        encoding: {
          x,
          y: place.y,
          shape: { field: "m", type: "nominal", scale: null },
          fill: { field: "f", type: "nominal", scale: null },
        },
      },
    ];
  };
  const of = `${mix === null ? "" : `, mix ${figureLabel(mix)}`}${taken.words}`;
  const title = `What moving the edges of the windows changes${of}`;
  const said = windows.map((window) => {
    const own = rowsOf(window).flatMap(({ row }) =>
      moves.flatMap(({ move, label }) => {
        const d = change(row, move);
        return d === null ? [] : [{ row, label, d }];
      }),
    );
    const [largest] = own.sort((a, b) => Math.abs(b.d) - Math.abs(a.d));
    if (largest === undefined) return `${figureLabel(window)}: no run covers the moved edges.`;
    const sure = new Set(own.filter(({ row }) => halfOf(row) !== null).map(({ row }) => row)).size;
    const beyond = new Set(
      own.filter(({ row, d }) => Math.abs(d) > (halfOf(row) ?? Number.POSITIVE_INFINITY)).map(({ row }) => row),
    ).size;
    const judged =
      sure === 0 ? "no cell has a 95 % interval" : `beyond the 95 % interval in ${beyond} of ${sure} cells`;
    const decimals = decimalsFor([Math.abs(largest.d)]);
    return `${figureLabel(window)}: at most ${signed(largest.d, decimals)} (${largest.label}, ${figureLabel(regimeWords(largest.row))} at ${ageWords(largest.row.age_d)}); ${judged}.`;
  });
  const alt = `Change of each index in g/100 g when one edge of its window moves by 5 °C${of}. ${said.join(" ")}`;
  const key = [
    ...moves.map(({ label, shape, filled }) => ({ label, shape, filled })),
    ...(windows.some((window) => rowsOf(window).some(({ row }) => halfOf(row) !== null))
      ? [{ label: "95 % interval of the index", box: SHADE }]
      : []),
  ];
  return {
    name: figureName("sensitivity", mix ?? "no-mix", options.windows?.join("-") ?? null, taken.name),
    kind: "sensitivity",
    title,
    alt,
    spec: cellPanels({
      theme: size,
      cells,
      windows,
      looks: regimesOf(campaign, size.label),
      key,
      beside: 0,
      draw,
      title,
      alt,
    }),
  };
}

/** Mean change of the index per cell, window and move, over the specimens that have both. */
function changesOf(campaign: Pick<Campaign, "runs" | "protocol">, windows: readonly string[]): Map<string, number> {
  const changes = new Map<string, number>();
  for (const { move } of moves) {
    const moved = indexCells(campaign, {
      windows,
      pick: ({ index, index_shifted }) => {
        const shifted = index_shifted[move];
        return "missing" in index || shifted === null ? null : { value: shifted - index.value, terms: [] };
      },
    });
    for (const cell of moved) {
      if (cell.value !== null) changes.set(JSON.stringify([cellKey(cell), cell.quantity, move]), cell.value);
    }
  }
  return changes;
}

function short(value: number): number {
  return Number(value.toPrecision(5)) + 0;
}
