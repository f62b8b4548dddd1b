import { ageWords } from "../../campaign/ageWords.ts";
import { listWords, regimeWords } from "../../compare/words.ts";
import type { Sketch } from "../../curve/sketch.ts";
import { valueOrNull } from "../../measured.ts";
import type { RunDone, SettledProtocol, WindowResult } from "../../protocol/types.ts";
import { channel, marksOf } from "./channel.ts";
import { domainOf } from "./domainOf.ts";
import { figureLabel } from "./figureLabel.ts";
import { figureName } from "./figureName.ts";
import { type KeyItem, keyStrip } from "./keyStrip.ts";
import { page, type View } from "./page.ts";
import { spacer } from "./spacer.ts";
import { textPx } from "./textPx.ts";
import { type FigureOptions, INK, SHADE, SOFT, type Theme, theme } from "./theme.ts";
import type { Figure, Json } from "./types.ts";
import { valueAt } from "./valueAt.ts";

/** Between the baseline of a window and its DTG. */
const AREA = "#129cd8";
/** Where the DTG lies below the baseline: it counts less than nothing. */
const LESS = "#9a5f55";
/** What a step takes away. */
const STEP = "#7c0403";

/**
 * TG and DTG of a run over one axis of temperature, the windows named above and shaded: the mass that each window of the rule
 * `step` takes, the area that one of the rule `area` counts with the baseline it leaves out and what lies below it, the DTG peaks.
 *
 * The baseline's mean is that of the index to the last digit; its slope is read from the sketch.
 *
 * @example
 * ```ts
 * import { exampleCampaign, indexBytes, planRuns, protocols, runFigure, settle, sketch, summarise } from "tg-hydrates";
 * const { files } = exampleCampaign(1, { size: "small" });
 * const bytesOf = (name: string) => files.find((file) => file.name === name)!.bytes;
 * const sheet = { name: "sheet.csv", text: new TextDecoder().decode(bytesOf("sheet.csv")) };
 * const protocol = settle(protocols.csa);
 * const { jobs } = planRuns({ sheet, files: files.map(({ name }) => name) });
 * const sketches: (ReturnType<typeof sketch> & { file: string })[] = [];
 * const results = jobs.map((job) =>
 *   indexBytes(bytesOf(job.file), job, { protocol, onCurve: (curve) => sketches.push({ file: job.file, ...sketch(curve) }) }),
 * );
 * const run = results.find((one) => one.status === "done" && one.role === "specimen");
 * if (run?.status !== "done") throw new Error("a specimen of the example is complete");
 * const { alt } = runFigure(run, sketches.find(({ file }) => file === run.file)!, protocol);
 * if (!alt.includes("DTG peak")) throw new Error("the text says where the peaks are");
 * ```
 */
export function runFigure(
  run: RunDone,
  sketch: Sketch,
  protocol: Pick<SettledProtocol, "windows">,
  options: FigureOptions = {},
): Figure {
  const size = theme(options.width);
  const narrow = size.width < 400;
  const left = size.font * 4.4 + 6;
  const length = size.width - left - 14;
  const { temperature_C: T, mass_pct: mass, dtg_pct_per_C: dtg } = sketch;
  const known = new Set(protocol.windows.map(({ name }) => name));
  const windows = run.windows.filter(({ window }) => known.has(window));
  const across: [number, number] = [
    Math.min(T[0] ?? 0, ...windows.map(({ from_C }) => from_C)),
    Math.max(T.at(-1) ?? 1000, ...windows.map(({ to_C }) => to_C)),
  ];
  const marks = marksOf(across, length, size, "x");
  const peaks = peaksOf(windows);
  const up = domainOf(mass);
  const rate = domainOf([...dtg, ...peaks.map(({ v }) => v)], { zero: true });
  const headroom: [number, number] = [rate[0], rate[1] + (rate[1] - rate[0]) * 0.08];
  const heights = narrow ? [96, 110] : [170, 190];
  const lanes = laneStrip(windows, { across, length, size });
  const bare = channel("x", { domain: across, axis: { title: "", values: marks, unnamed: true } });
  const x = channel("x", { domain: across, axis: { title: "temperature / °C", values: marks } });
  const y = channel("v", {
    domain: up,
    axis: { title: "mass / %", values: marksOf(up, heights[0]!, size, "y"), extent: size.font * 2.6 },
  });
  const w = channel("v", {
    domain: headroom,
    axis: { title: "DTG / (% per °C)", values: marksOf(headroom, heights[1]!, size, "y"), extent: size.font * 2.6 },
  });
  const steps = windows.filter(({ rule }) => rule === "step").flatMap((one) => stepOf(one, sketch) ?? []);
  const areas = windows.filter(({ rule }) => rule === "area").flatMap((one) => areaOf(one, sketch, windows) ?? []);
  const curve = (values: readonly number[], xs: Json, ys: Json): Json => ({
    data: { values: [{ x: T.map((one) => short(one, 5)), v: values.map((one) => short(one, 4)) }] },
    transform: [{ flatten: ["x", "v"] }],
    mark: { type: "line", strokeWidth: 1.2, color: INK },
    encoding: { x: xs, y: ys },
  });
  const shading = (height: number, xs: Json): Json => ({
    data: { values: windows.map(({ from_C, to_C }) => ({ x: from_C, e: to_C })) },
    mark: { type: "rect", color: SHADE, opacity: 0.55 },
    encoding: { x: xs, x2: { field: "e" }, y: { value: 0 }, y2: { value: height } },
  });
  const tg: View = {
    width: length,
    height: heights[0]!,
    layer: [
      shading(heights[0]!, bare),
      {
        data: { values: steps },
        mark: { type: "rule", strokeWidth: 0.8, color: STEP, strokeDash: [3, 2] },
        encoding: { x: bare, x2: { field: "e" }, y },
      },
      {
        data: { values: steps.map(({ e, v, low }) => ({ x: e, v, low })) },
        mark: { type: "rule", strokeWidth: 1.6, color: STEP },
        encoding: { x: bare, y, y2: { field: "low" } },
      },
      curve(mass, bare, y),
    ],
  };
  const derivative: View = {
    width: length,
    height: heights[1]!,
    layer: [
      shading(heights[1]!, x),
      ...areas.flatMap((area): Json[] => [
        between(area, { edge: area.v.map((v, k) => Math.max(v, area.b[k]!)), color: AREA, x, y: w }),
        between(area, { edge: area.v.map((v, k) => Math.min(v, area.b[k]!)), color: LESS, x, y: w }),
      ]),
      ...areas.map(
        (area): Json => ({
          data: { values: [{ x: area.x[0]!, v: area.b[0]!, e: area.x.at(-1)!, b: area.b.at(-1)! }] },
          mark: { type: "rule", strokeWidth: 1, color: INK, strokeDash: [4, 2] },
          encoding: { x, x2: { field: "e" }, y: w, y2: { field: "b" } },
        }),
      ),
      ...(headroom[0] < 0
        ? [{ data: { values: [{ v: 0 }] }, mark: { type: "rule", strokeWidth: 0.5, color: SOFT }, encoding: { y: w } }]
        : []),
      curve(dtg, x, w),
      {
        data: { values: peaks.map(({ x, v }) => ({ x, v })) },
        mark: { type: "point", shape: "triangle-down", size: 22, filled: true, color: INK, opacity: 1, yOffset: -6 },
        encoding: { x, y: w },
      },
      {
        data: { values: peaks.map(({ x, v, l }) => ({ x, v, l })) },
        mark: { type: "text", baseline: "bottom", align: "left", dx: 5, dy: -4 },
        encoding: { x, y: w, text: { field: "l", type: "nominal" } },
      },
    ],
  };
  const items: KeyItem[] = [
    ...(steps.length > 0 ? [{ label: "step, with its level", color: STEP, dash: [1, 0], thick: 1.6 }] : []),
    ...(areas.length > 0
      ? [
          { label: "area counted", box: "#86c6ea" },
          { label: "taken off it", box: "#c9a9a3" },
          { label: "baseline", dash: [4, 2] },
        ]
      : []),
    ...(peaks.length > 0 ? [{ label: "DTG peak / °C", shape: "triangle-down" }] : []),
  ];
  const key = keyStrip(items, size, { width: size.width - 12, left: left - 6 });
  const title = `TG and DTG of ${figureLabel(run.file, 60)}`;
  const alt = altOf(run, windows, peaks);
  return {
    name: figureName("run", run.file),
    kind: "run",
    title,
    alt,
    spec: page([lanes, spacer(4), tg, spacer(10), derivative, spacer(size.font * 3 + 12), key], {
      theme: size,
      title,
      alt,
      left,
      top: 6,
      bottom: 5,
    }),
  };
}

/** The area between the baseline and an edge on one side of it. */
function between(
  { x: T, b }: { x: number[]; b: number[] },
  { edge, color, x, y }: { edge: number[]; color: string; x: Json; y: Json },
): Json {
  return {
    data: { values: [{ x: T, v: edge, b }] },
    transform: [{ flatten: ["x", "v", "b"] }],
    mark: { type: "area", color, opacity: 0.55, line: false },
    encoding: { x, y, y2: { field: "b" } },
  };
}

/** DTG maxima that lie in a window, each once though windows overlap. */
function peaksOf(windows: readonly WindowResult[]): { x: number; v: number; l: string }[] {
  const peaks = new Map<number, { x: number; v: number; l: string }>();
  for (const { peak_C: x, peak_dtg_pct_per_C: v } of windows) {
    if (x === null || v === null) continue;
    peaks.set(Math.round(x), { x: short(x, 5), v: short(v, 5), l: String(Math.round(x)) });
  }
  return [...peaks.values()].sort((a, b) => a.x - b.x);
}

/** Level at the lower edge and the mass at the upper one. */
function stepOf(
  { from_C, to_C }: WindowResult,
  { temperature_C, mass_pct }: Sketch,
): { x: number; e: number; v: number; low: number } | null {
  const v = valueAt(temperature_C, mass_pct, from_C);
  const low = valueAt(temperature_C, mass_pct, to_C);
  return v === null || low === null ? null : { x: from_C, e: to_C, v: short(v, 5), low: short(low, 5) };
}

/**
 * DTG and baseline within a window. Step less area is the baseline's mean times the window, in the unit of the index; the same
 * loss in % of the initial mass turns it into % per °C.
 */
function areaOf(
  { from_C: from, to_C: to, index_step, index_area }: WindowResult,
  sketch: Sketch,
  windows: readonly WindowResult[],
): { x: number[]; v: number[]; b: number[] } | null {
  const step = valueOrNull(index_step);
  const area = valueOrNull(index_area);
  const perIndex = scaleOf(windows);
  const { temperature_C: T, dtg_pct_per_C: dtg } = sketch;
  const first = valueAt(T, dtg, from);
  const last = valueAt(T, dtg, to);
  if (step === null || area === null || perIndex === null || first === null || last === null) return null;
  const middle = ((step - area) * perIndex) / (to - from);
  const correction = middle - (first + last) / 2;
  const inside = T.flatMap((one, k) => (one > from && one < to ? [{ x: one, v: dtg[k]! }] : []));
  const points = [{ x: from, v: first }, ...inside, { x: to, v: last }];
  return {
    x: points.map(({ x }) => short(x, 5)),
    v: points.map(({ v }) => short(v, 4)),
    b: points.map(({ x }) => short(first + correction + ((last - first) * (x - from)) / (to - from), 4)),
  };
}

/** % of the initial mass per unit of index: from the window with the largest index, whose quotient is the surest. */
function scaleOf(windows: readonly WindowResult[]): number | null {
  let best: { index: number; loss: number } | null = null;
  for (const window of windows) {
    const index = valueOrNull(window.index);
    const loss = valueOrNull(window.loss_pct_initial);
    if (index === null || loss === null || index === 0) continue;
    if (best === null || Math.abs(index) > Math.abs(best.index)) best = { index, loss };
  }
  return best === null ? null : best.loss / best.index;
}

/** Names of the windows, each over its range, in as many lines as keep them apart. */
function laneStrip(
  windows: readonly WindowResult[],
  { across, length, size }: { across: readonly [number, number]; length: number; size: Theme },
): View {
  const px = (T: number): number => ((T - across[0]) / (across[1] - across[0])) * length;
  const ends: number[] = [];
  const placed = [...windows]
    .sort((a, b) => a.from_C - b.from_C || a.to_C - b.to_C)
    .map(({ window, from_C, to_C }) => {
      const label = figureLabel(window, 24);
      const wide = textPx(label, size.font) + 6;
      const from = px(from_C);
      const to = px(to_C);
      const middle = Math.min(Math.max((from + to) / 2, wide / 2), length - wide / 2);
      const start = Math.min(from, middle - wide / 2);
      let lane = ends.findIndex((end) => end <= start);
      if (lane < 0) lane = ends.length;
      ends[lane] = Math.max(to, middle + wide / 2);
      return { from, to, middle, lane, label };
    });
  const step = size.line + 5;
  const height = Math.max(1, ends.length) * step;
  const x = channel("x", { domain: [0, length] });
  const y = channel("y", { domain: [0, height], reverse: true });
  return {
    width: length,
    height,
    layer: [
      {
        data: {
          values: placed.map(({ from, to, lane }) => ({
            x: short(from + 0.75, 5),
            e: short(to - 0.75, 5),
            y: (lane + 1) * step - 3,
          })),
        },
        mark: { type: "rule", strokeWidth: 2.4, color: SOFT },
        encoding: { x, x2: { field: "e" }, y },
      },
      {
        data: {
          values: placed.map(({ middle, lane, label }) => ({
            x: short(middle, 5),
            y: (lane + 1) * step - 6,
            l: label,
          })),
        },
        mark: { type: "text", baseline: "bottom" },
        encoding: { x, y, text: { field: "l", type: "nominal" } },
      },
    ],
  };
}

function altOf(run: RunDone, windows: readonly WindowResult[], peaks: readonly { l: string }[]): string {
  const cell = [
    run.mix === null ? null : `mix ${figureLabel(run.mix)}`,
    figureLabel(regimeWords(run)),
    ageWords(run.age_d),
  ];
  const said = windows.map(({ window, index, rule, from_C, to_C }) => {
    const value = valueOrNull(index);
    const text =
      "missing" in index
        ? `missing (${index.missing})`
        : `${short(value!, 3)}${index.u === null ? "" : ` ± ${short(index.u, 2)}`}`;
    return `${figureLabel(window)} (${short(from_C, 5)} to ${short(to_C, 5)} °C, ${rule}) ${text}`;
  });
  const tops =
    peaks.length === 0
      ? "No DTG peak is marked."
      : `DTG ${peaks.length === 1 ? "peak" : "peaks"} at ${listWords(peaks.map(({ l }) => l))} °C.`;
  return `TG and DTG of ${figureLabel(run.file, 60)} (${cell.filter((one) => one !== null).join(", ")}). ${tops} Index with its standard uncertainty in g/100 g: ${said.join("; ")}.`;
}

function short(value: number, digits: number): number {
  return Number(value.toPrecision(digits)) + 0;
}
