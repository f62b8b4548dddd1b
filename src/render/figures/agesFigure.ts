import { ageWords } from "../../campaign/ageWords.ts";
import type { AgeRow, Campaign } from "../../campaign/types.ts";
import { indexCells } from "../../compare/indexCells.ts";
import { regimeWords } from "../../compare/words.ts";
import { valueOrNull } from "../../measured.ts";
import { decimalsFor, fixed } from "../decisionWords.ts";
import { ageLine } from "./ageLine.ts";
import { basisUnit } from "./basisWords.ts";
import { channel, marksOf, thinMarks } from "./channel.ts";
import { domainOf } from "./domainOf.ts";
import { figureLabel } from "./figureLabel.ts";
import { figureName } from "./figureName.ts";
import { INTERVAL, keyStrip } from "./keyStrip.ts";
import { page, type View } from "./page.ts";
import { type Part, part } from "./part.ts";
import { type RegimeLook, regimeKey, regimesOf } from "./regimesOf.ts";
import { spacer } from "./spacer.ts";
import { type FigureOptions, INK, theme } from "./theme.ts";
import type { Figure, Json } from "./types.ts";

/** Options of {@link agesFigure}; the part is one of the regimes. */
export interface AgesFigureOptions extends FigureOptions, Part {
  mix: string | null;
  window: string;
  /** Axis of the age. @default "log" where the ages span more than a decade, else "linear" */
  axis?: "log" | "linear";
}

/**
 * Index against age in one mix and window: a line per curing regime, means with their 95 % intervals, beside them the single
 * specimens. Cells without an interval have none drawn, cells without an age stand in the text only.
 *
 * @throws RangeError for a mix and window that the campaign does not have.
 *
 * @example
 * ```ts
 * import { agesFigure, exampleCampaign, indexBytes, planRuns, protocols, settle, summarise } from "tg-hydrates";
 * const { files } = exampleCampaign(1, { size: "small" });
 * const bytesOf = (name: string) => files.find((file) => file.name === name)!.bytes;
 * const sheet = { name: "sheet.csv", text: new TextDecoder().decode(bytesOf("sheet.csv")) };
 * const protocol = settle(protocols.csa);
 * const { jobs } = planRuns({ sheet, files: files.map(({ name }) => name) });
 * const campaign = summarise(jobs.map((job) => indexBytes(bytesOf(job.file), job, { protocol })), { protocol });
 * const mix = campaign.ages[0]!.mix;
 * const figure = agesFigure(campaign, { mix, window: "aft-afm", axis: "linear" });
 * if (!figure.alt.includes("aft-afm")) throw new Error("the text names the window");
 * ```
 */
export function agesFigure(
  campaign: Pick<Campaign, "ages" | "runs" | "protocol" | "decisions">,
  options: AgesFigureOptions,
): Figure {
  const { mix, window, width } = options;
  const all = campaign.ages.filter((row) => row.mix === mix && row.window === window);
  const { items: own, words, name: partName } = part([...new Set(all.map(regimeKey))], options, "regimes");
  const rows = all.filter((row) => own.includes(regimeKey(row)));
  if (rows.length === 0) throw new RangeError(`Name a mix and a window of the campaign, not ${mix} and ${window}`);
  const size = theme(width);
  const looks = regimesOf(campaign, size.label);
  const dated = rows.filter(({ age_d }) => age_d !== null);
  const ages = [...new Set(dated.map(({ age_d }) => age_d!))].sort((a, b) => a - b);
  const positive = ages.length > 0 && ages[0]! > 0;
  const log = positive && (options.axis === undefined ? ages.at(-1)! > 10 * ages[0]! : options.axis === "log");
  const left = size.font * 4.2 + 6;
  const length = size.width - left - 10;
  const height = Math.round(length * (width === "column" ? 0.66 : 0.5));
  const aside = Math.min(length / 5, Math.max(18, (own.length - 1) * 4 + 10));
  const line = ageLine(ages, { log, length, room: aside });
  // Regimes stand beside one another where they share an age, as far as the ages leave room.
  const places = ages.map(line.place);
  const room = Math.min(...places.slice(1).map((px, i) => px - places[i]!), length);
  const step = Math.min(5, (0.4 * room) / own.length, (aside - 8) / Math.max(1, own.length - 1));
  const present = new Map(
    ages.map((age) => [age, own.filter((key) => dated.some((row) => row.age_d === age && regimeKey(row) === key))]),
  );
  const shift = (row: Pick<AgeRow, "curing" | "curing_d" | "age_d">): number => {
    const beside = present.get(row.age_d!) ?? [];
    return (beside.indexOf(regimeKey(row)) - (beside.length - 1) / 2) * step * 2;
  };
  const points = dated.map((row) => ({
    key: regimeKey(row),
    x: line.at(row.age_d!, shift(row)),
    v: valueOrNull(row.index),
    lo: row.index_lo95,
    hi: row.index_hi95,
    ...look(looks, row),
  }));
  const scattered = indexCells(campaign, { windows: [window] })
    .filter(
      (cell) => cell.mix === mix && cell.age_d !== null && cell.specimens.length > 1 && own.includes(regimeKey(cell)),
    )
    .flatMap((cell) =>
      cell.specimens.map(({ value }) => ({
        x: line.at(cell.age_d!, shift(cell) - Math.min(3.5, step * 0.8)),
        v: value,
        ...look(looks, cell),
      })),
    );
  const x = line.domain;
  const y = domainOf([...points.flatMap(({ v, lo, hi }) => [v, lo, hi]), ...scattered.map(({ v }) => v)]);
  const xs = channel("x", { domain: x, log, axis: { title: "age / d", values: thinMarks(ages, line.place, size) } });
  const title = `index ${figureLabel(window, 24)} / ${basisUnit(rows[0]!.basis)}`;
  const ys = channel("v", {
    domain: y,
    axis: { title, values: marksOf(y, height, size, "y"), extent: size.font * 2.6 },
  });
  const color: Json = { field: "c", type: "nominal", scale: null };
  const shape: Json = { field: "m", type: "nominal", scale: null };
  const plot: View = {
    width: length,
    height,
    layer: [
      ...(y[0] < 0 && y[1] > 0
        ? [
            {
              data: { values: [{ v: 0 }] },
              mark: { type: "rule", strokeWidth: 0.5, color: INK },
              encoding: { y: ys },
            },
          ]
        : []),
      ...own.map((key): Json => {
        const { style } = looks.get(key)!;
        return {
          data: {
            values: points.filter((point) => point.key === key && point.v !== null).map(({ x, v }) => ({ x, v })),
          },
          mark: { type: "line", strokeWidth: 1.2, color: style.color, strokeDash: style.dash },
          encoding: { x: xs, y: ys },
        };
      }),
      {
        data: { values: points.filter(({ lo }) => lo !== null).map(({ x, lo, hi, c }) => ({ x, v: lo, hi, c })) },
        mark: { type: "rule", strokeWidth: 0.9 },
        encoding: { x: xs, y: ys, y2: { field: "hi" }, color },
      },
      {
        data: {
          values: points
            .filter(({ lo }) => lo !== null)
            .flatMap(({ x, lo, hi, c }) => [
              { x, v: lo, c },
              { x, v: hi, c },
            ]),
        },
        mark: { type: "tick", orient: "horizontal", size: 6, thickness: 0.9 },
        encoding: { x: xs, y: ys, color },
      },
      {
        data: { values: scattered },
        mark: { type: "point", size: 9, strokeWidth: 0.6, opacity: 1, filled: false },
        encoding: { x: xs, y: ys, color, shape },
      },
      {
        data: { values: points.filter(({ v }) => v !== null).map(({ x, v, c, m }) => ({ x, v, c, m })) },
        mark: { type: "point", size: 34, opacity: 1, filled: true, stroke: "#ffffff", strokeWidth: 0.5 },
        encoding: { x: xs, y: ys, fill: color, shape },
      },
    ],
  };
  const gap = size.font * 3 + 12;
  const key = keyStrip(
    [
      ...own.map((one) => {
        const { label, style } = looks.get(one)!;
        return { label, color: style.color, dash: style.dash, shape: style.shape };
      }),
      ...(points.some(({ lo }) => lo !== null) ? [{ label: "95 % interval", shape: INTERVAL }] : []),
      ...(scattered.length === 0 ? [] : [{ label: "single specimen", shape: "circle", filled: false, small: true }]),
    ],
    size,
    { width: size.width - 12, left: left - 6 },
  );
  const alt = altOf(rows, { mix, window });
  const name = `Index ${figureLabel(window)} against age${mix === null ? "" : `, mix ${figureLabel(mix)}`}${words}`;
  return {
    name: figureName("ages", mix ?? "no-mix", window, partName),
    kind: "ages",
    title: name,
    alt,
    spec: page([plot, spacer(gap), key], { theme: size, title: name, alt, left, top: 8, bottom: 5 }),
  };
}

function look(
  looks: ReadonlyMap<string, RegimeLook>,
  row: Pick<AgeRow, "curing" | "curing_d">,
): { c: string; m: string } {
  const { color, shape } = looks.get(regimeKey(row))!.style;
  return { c: color, m: shape };
}

/** What is to be seen, regime by regime. */
function altOf(rows: readonly AgeRow[], { mix, window }: AgesFigureOptions): string {
  const unit = basisUnit(rows[0]!.basis).slice(1, -1);
  const halves = rows.flatMap(({ index_lo95: lo, index_hi95: hi }) =>
    lo === null || hi === null ? [] : [(hi - lo) / 2],
  );
  const decimals = decimalsFor(halves);
  const said = (row: AgeRow): string => {
    const value = valueOrNull(row.index);
    if (value === null) return `no value at ${ageWords(row.age_d)}`;
    const { index_lo95: lo, index_hi95: hi } = row;
    const interval = lo === null ? ", no interval" : `, 95 % interval ${fixed(lo, decimals)} to ${fixed(hi, decimals)}`;
    return `${fixed(value, decimals)} at ${ageWords(row.age_d)} (${row.n_specimens} ${row.n_specimens === 1 ? "specimen" : "specimens"}${interval})`;
  };
  const regimes = [...new Set(rows.map(regimeKey))].map((key) => {
    const own = rows.filter((row) => regimeKey(row) === key).sort((a, b) => (a.age_d ?? -1) - (b.age_d ?? -1));
    const ends = own.length > 1 ? [own[0]!, own.at(-1)!] : own;
    return `${figureLabel(regimeWords(own[0]!))} ${ends.map(said).join(", ")}`;
  });
  const undated = rows.filter(({ age_d }) => age_d === null).length;
  const hidden = undated === 0 ? "" : ` ${undated} without an age ${undated === 1 ? "is" : "are"} not drawn.`;
  return `Index ${figureLabel(window)} of ${mix === null ? "no mix" : `mix ${figureLabel(mix)}`} against age, ${unit}, first and last age of each regime: ${regimes.join("; ")}.${hidden}`;
}
