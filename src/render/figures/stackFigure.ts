import { mean } from "d3-array";
import { ageWords } from "../../campaign/ageWords.ts";
import type { Campaign } from "../../campaign/types.ts";
import { listWords, regimeWords } from "../../compare/words.ts";
import type { Sketch } from "../../curve/sketch.ts";
import type { RunDone } from "../../protocol/types.ts";
import { channel, marksOf } from "./channel.ts";
import { figureLabel } from "./figureLabel.ts";
import { figureName } from "./figureName.ts";
import { page, type View } from "./page.ts";
import { type Part, part } from "./part.ts";
import { regimeKey, regimesOf } from "./regimesOf.ts";
import { spacer } from "./spacer.ts";
import { textPx } from "./textPx.ts";
import { type FigureOptions, INK, theme } from "./theme.ts";
import { thinned } from "./thinned.ts";
import type { Figure, Json } from "./types.ts";
import { valueAt } from "./valueAt.ts";

/** Options of {@link stackFigure}; the part is one of the regimes. */
export interface StackFigureOptions extends FigureOptions, Part {
  mix: string | null;
}

/** Most points of all curves together: what fits into 60 kB. */
const MOST_POINTS = 3000;

/**
 * DTG curves of a mix, one above the other by age, a panel for each curing regime: means of the runs of a cell, all in the same
 * scale, which a bar states; an age stands at the same height in every panel.
 *
 * @throws RangeError for a mix of which no run has a curve.
 *
 * @example
 * ```ts
 * import { exampleCampaign, indexBytes, planRuns, protocols, settle, sketch, stackFigure, summarise } from "tg-hydrates";
 * const { files } = exampleCampaign(1, { size: "small" });
 * const bytesOf = (name: string) => files.find((file) => file.name === name)!.bytes;
 * const sheet = { name: "sheet.csv", text: new TextDecoder().decode(bytesOf("sheet.csv")) };
 * const protocol = settle(protocols.csa);
 * const { jobs } = planRuns({ sheet, files: files.map(({ name }) => name) });
 * const sketches: (ReturnType<typeof sketch> & { file: string })[] = [];
 * const results = jobs.map((job) =>
 *   indexBytes(bytesOf(job.file), job, { protocol, onCurve: (curve) => sketches.push({ file: job.file, ...sketch(curve) }) }),
 * );
 * const campaign = summarise(results, { protocol });
 * const figure = stackFigure(campaign, sketches, { mix: campaign.ages[0]!.mix });
 * if (figure.kind !== "stack") throw new Error("curves by age");
 * ```
 */
export function stackFigure(
  campaign: Pick<Campaign, "ages" | "runs" | "protocol" | "decisions">,
  sketches: readonly (Sketch & { file: string })[],
  options: StackFigureOptions,
): Figure {
  const { mix, width } = options;
  const curveOf = new Map(sketches.map((sketch) => [sketch.file, sketch]));
  const runs = campaign.runs.filter(
    (run): run is RunDone =>
      run.status !== "failed" && run.role === "specimen" && run.mix === mix && curveOf.has(run.file),
  );
  if (runs.length === 0) throw new RangeError(`Name a mix of which a run has a curve, not ${mix}`);
  const size = theme(width);
  const looks = regimesOf(campaign, size.label);
  const windows = campaign.protocol.windows;
  const from = Math.min(...windows.map(({ from_C }) => from_C));
  const to = Math.max(...windows.map(({ to_C }) => to_C));
  const taken = part(
    [...looks.keys()].filter((key) => runs.some((run) => regimeKey(run) === key)),
    options,
    "regimes",
  );
  const regimes = taken.items;
  const ages = [...new Set(runs.map(({ age_d }) => age_d))].sort((a, b) => (a ?? -1) - (b ?? -1));
  const cells = regimes.map((key) =>
    ages.flatMap((age, slot) => {
      const own = runs.filter((run) => run.age_d === age && regimeKey(run) === key);
      return own.length === 0
        ? []
        : [
            {
              slot,
              age,
              n: own.length,
              ...meanCurve(
                own.map(({ file }) => curveOf.get(file)!),
                [from, to],
              ),
            },
          ];
    }),
  );
  const most = Math.max(40, Math.min(200, Math.floor(MOST_POINTS / cells.flat().length)));
  const highest = Math.max(...cells.flat().flatMap(({ dtg }) => dtg), 1e-9);
  // A curve may reach into the one above it, as far as their feet do not meet.
  const offset = highest * (ages.length > 1 ? 0.62 : 1);
  const lowest = Math.min(0, ...cells.flat().map(({ slot, dtg }) => Math.min(...dtg) + slot * offset));
  const domain: [number, number] = [lowest - highest * 0.04, (ages.length - 1) * offset + highest * 1.06];

  const agesPx = Math.max(...ages.map((age) => textPx(ageWords(age), size.font))) + 6;
  const abreast = size.width < 400 ? 2 : 4;
  const columns = Math.ceil(regimes.length / Math.ceil(regimes.length / abreast));
  const left = size.font * 3.6;
  const gap = agesPx + 12;
  const length = Math.floor((size.width - left - agesPx - 8 - gap * (columns - 1)) / columns);
  const perSlot = Math.min(34, Math.max(14, 260 / ages.length));
  const height = Math.round((perSlot * (domain[1] - domain[0])) / offset);
  const bar = roundBelow(highest * 0.5);
  const x = channel("x", {
    domain: [from, to],
    axis: { title: "temperature / °C", values: marksOf([from, to], length, size, "x") },
  });
  const y = channel("v", { domain });
  const panels = regimes.map((key, i): View => {
    const { label, style } = looks.get(key)!;
    const texts = cells[i]!.map(({ slot, age, dtg }) => ({ v: slot * offset + (dtg.at(-1) ?? 0), l: ageWords(age) }));
    return {
      width: length,
      height,
      layer: [
        ...cells[i]!.map(({ slot, xs, dtg }): Json => {
          const kept = thinned(dtg, most);
          return {
            data: {
              values: [
                { x: kept.map((k) => round(xs[k]!, 1)), v: kept.map((k) => significant(dtg[k]! + slot * offset)) },
              ],
            },
            transform: [{ flatten: ["x", "v"] }],
            mark: { type: "line", strokeWidth: 1, color: style.color },
            encoding: { x, y },
          };
        }),
        {
          data: { values: texts },
          mark: { type: "text", align: "left", baseline: "middle" },
          encoding: { x: { value: length + 4 }, y, text: { field: "l", type: "nominal" } },
        },
        {
          data: { values: [{ l: label }] },
          mark: { type: "text", align: "left", baseline: "bottom", fontWeight: "bold" },
          encoding: { x: { value: 0 }, y: { value: -4 }, text: { field: "l", type: "nominal" } },
        },
        ...(i % columns === 0 ? scaleBar(bar, { y, font: size.font, height, domain }) : []),
      ],
    };
  });
  while (panels.length % columns !== 0) panels.push(spacer(height, length));
  const heading = size.line + 4;
  const of = `${mix === null ? "" : `, mix ${figureLabel(mix)}`}${taken.words}`;
  const title = `DTG by age and curing${of}`;
  const tallest = cells
    .flatMap((own, i) => own.map((cell) => ({ ...cell, key: regimes[i]! })))
    .sort((a, b) => Math.max(...b.dtg) - Math.max(...a.dtg))[0]!;
  const peak = tallest.xs[tallest.dtg.indexOf(Math.max(...tallest.dtg))]!;
  const alt = `DTG curves${of}, shifted upwards by age, ${regimes.length} ${regimes.length === 1 ? "regime" : "regimes"} with ${listWords(ages.map(ageWords))}. The highest peak, ${significant(Math.max(...tallest.dtg), 2)} % of the initial mass per °C at ${Math.round(peak)} °C, has ${figureLabel(regimeText(tallest.key))} at ${ageWords(tallest.age)} (mean of ${tallest.n} ${tallest.n === 1 ? "run" : "runs"}).`;
  return {
    name: figureName("stack", mix ?? "no-mix", taken.name),
    kind: "stack",
    title,
    alt,
    spec: page(panels, {
      theme: size,
      title,
      alt,
      columns,
      row: size.font * 2.6 + 12 + heading,
      column: gap,
      left,
      top: heading + 2,
      bottom: size.font * 2.6 + 14,
    }),
  };
}

function regimeText(key: string): string {
  const [curing, curing_d] = JSON.parse(key) as [string | null, number | null];
  return regimeWords({ curing, curing_d });
}

/** Mean DTG of sketches at every temperature of any of them that all of them reach: no peak falls between two points. */
function meanCurve(
  sketches: readonly Sketch[],
  [from, to]: readonly [number, number],
): { xs: number[]; dtg: number[] } {
  const all = [...new Set(sketches.flatMap(({ temperature_C }) => temperature_C))]
    .filter((T) => T >= from && T <= to)
    .sort((a, b) => a - b);
  const xs: number[] = [];
  const dtg: number[] = [];
  for (const T of all) {
    const values = sketches.map((sketch) => valueAt(sketch.temperature_C, sketch.dtg_pct_per_C, T));
    if (values.includes(null)) continue;
    xs.push(T);
    dtg.push(mean(values as number[])!);
  }
  return { xs, dtg };
}

/** How much a height stands for, left of the panel. */
function scaleBar(
  size: number,
  place: { y: Json; font: number; height: number; domain: readonly [number, number] },
): Json[] {
  const { y, height, domain } = place;
  const px = (size / (domain[1] - domain[0])) * height;
  return [
    {
      data: { values: [{ v: 0, e: size }] },
      mark: { type: "rule", strokeWidth: 1.6, color: INK },
      encoding: { x: { value: -8 }, y, y2: { field: "e" } },
    },
    {
      data: { values: [{ v: size / 2, l: `${significant(size)} %/°C` }] },
      mark: {
        type: "text",
        angle: 270,
        align: px > 40 ? "center" : "left",
        baseline: "bottom",
        dx: px > 40 ? 0 : -px / 2,
        dy: -14,
      },
      encoding: { x: { value: 0 }, y, text: { field: "l", type: "nominal" } },
    },
  ];
}

/** 1, 2 or 5 times a power of ten, not above. */
function roundBelow(value: number): number {
  const power = 10 ** Math.floor(Math.log10(value));
  const lead = value / power;
  return significant((lead >= 5 ? 5 : lead >= 2 ? 2 : 1) * power);
}

function round(value: number, decimals: number): number {
  return Number(value.toFixed(decimals)) + 0;
}

function significant(value: number, digits = 4): number {
  return Number(value.toPrecision(digits)) + 0;
}
