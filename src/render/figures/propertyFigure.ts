import type { TogetherRow } from "../../campaign/decisions.ts";
import type { Campaign } from "../../campaign/types.ts";
import { cellKey } from "../../compare/cellKey.ts";
import { channel, marksOf } from "./channel.ts";
import { domainOf } from "./domainOf.ts";
import { figureLabel } from "./figureLabel.ts";
import { figureName } from "./figureName.ts";
import { INTERVAL, keyStrip } from "./keyStrip.ts";
import { page, type View } from "./page.ts";
import { type Part, part } from "./part.ts";
import { quantityWords, unitWords } from "./quantityWords.ts";
import { type RegimeLook, regimeKey, regimesOf } from "./regimesOf.ts";
import { spacer } from "./spacer.ts";
import { type FigureOptions, SOFT, type Theme, theme } from "./theme.ts";
import type { Figure, Json } from "./types.ts";

/** Options of {@link propertyFigure}; the part is one of the regimes. */
export interface PropertyFigureOptions extends FigureOptions, Part {
  property: string;
  /** Window whose index it is held against. */
  quantity: string;
  mix: string | null;
}

/** A cell as a point, with its intervals where it has them. */
interface Point {
  key: string;
  age: number;
  x: number;
  v: number;
  xs: [number, number] | null;
  vs: [number, number] | null;
}

/**
 * A property against an index, cell by cell: as measured, with 95 % intervals, the ages of a regime joined; and both less
 * the mean of their age, which is what can show that they go together (ages thrown together show growth).
 *
 * @throws RangeError for a property, index and mix without cells that have both.
 *
 * @example
 * ```ts
 * import { compare, exampleCampaign, indexBytes, parseProperties, planRuns, propertyFigure, protocols, settle, summarise } from "tg-hydrates";
 * const { files } = exampleCampaign(1, { size: "small" });
 * const bytesOf = (name: string) => files.find((file) => file.name === name)!.bytes;
 * const sheet = { name: "sheet.csv", text: new TextDecoder().decode(bytesOf("sheet.csv")) };
 * const protocol = settle(protocols.csa);
 * const { jobs } = planRuns({ sheet, files: files.map(({ name }) => name) });
 * const campaign = summarise(jobs.map((job) => indexBytes(bytesOf(job.file), job, { protocol })), { protocol });
 * const mix = campaign.ages[0]!.mix;
 * const table = new TextDecoder().decode(bytesOf("properties.csv"));
 * const { rows } = parseProperties(table, { name: "properties.csv" });
 * const decisions = compare(campaign, { reference: "sealed", properties: rows });
 * const figure = propertyFigure({ ...campaign, decisions }, { mix, property: "strength", quantity: "aft-afm" });
 * if (figure.kind !== "property") throw new Error("strength against the index");
 * ```
 */
export function propertyFigure(
  campaign: Pick<Campaign, "ages" | "runs" | "decisions">,
  options: PropertyFigureOptions,
): Figure {
  const { property, quantity, mix, width } = options;
  const { pairs = [], together = [], properties = [] } = campaign.decisions ?? {};
  const all = pairs.filter((row) => row.property === property && row.quantity === quantity && row.mix === mix);
  const taken = part([...new Set(all.map(regimeKey))], options, "regimes");
  const own = all.filter((row) => taken.items.includes(regimeKey(row)));
  const [first] = own;
  if (first === undefined) {
    throw new RangeError(
      `Name a property, a window and a mix with cells that have both, not ${property}, ${quantity} and ${mix}`,
    );
  }
  const size = theme(width);
  const looks = regimesOf(campaign, size.label);
  const indexOf = new Map(
    campaign.ages.filter(({ window }) => window === quantity).map((row) => [JSON.stringify(cellKey(row)), row]),
  );
  const propertyOf = new Map(
    properties.filter((row) => row.property === property).map((row) => [JSON.stringify(cellKey(row)), row]),
  );
  const measured = own.map((row): Point => {
    const key = JSON.stringify(cellKey(row));
    const index = indexOf.get(key);
    const value = propertyOf.get(key);
    return {
      key: regimeKey(row),
      age: row.age_d ?? 0,
      x: row.index,
      v: row.value,
      xs: range(index?.index_lo95, index?.index_hi95),
      vs: range(value?.lo95, value?.hi95),
    };
  });
  const less = own.flatMap((row): Point[] =>
    row.index_less_age === null || row.value_less_age === null
      ? []
      : [
          {
            key: regimeKey(row),
            age: row.age_d ?? 0,
            x: row.index_less_age,
            v: row.value_less_age,
            xs: null,
            vs: null,
          },
        ],
  );
  const unit = unitWords(first.unit);
  const name = quantityWords(property, 24);
  const window = figureLabel(quantity, 20);
  const narrow = size.width < 400;
  const twice = less.length > 1;
  const left = size.font * 4.9 + 6;
  const beside = !narrow && twice;
  const length = Math.floor(
    beside ? (size.width - 2 * left - 10) / 2 : narrow ? size.width - left - 10 : (size.width - left) * 0.6,
  );
  const height = Math.round(length * (narrow ? 0.7 : 0.8));
  const panels = [
    panel(
      measured,
      { x: `index ${window} / (g/100 g)`, v: `${name} / ${unit}` },
      { length, height, looks, size, joined: true },
    ),
    ...(twice
      ? [
          panel(
            less,
            { x: `index ${window} less age mean / (g/100 g)`, v: `${name} less age mean / ${unit}` },
            { length, height, looks, size, joined: false },
          ),
        ]
      : []),
  ];
  const regimes = [...new Set(own.map(regimeKey))];
  const key = keyStrip(
    [
      ...regimes.map((one) => {
        const { label, style } = looks.get(one)!;
        return { label, color: style.color, dash: style.dash, shape: style.shape };
      }),
      ...(measured.some(({ xs, vs }) => xs ?? vs) ? [{ label: "95 % interval", shape: INTERVAL }] : []),
    ],
    size,
    { width: size.width - 12, left: left - 6 },
  );
  const under = size.font * 3 + 12;
  const views = beside ? [...panels, key] : panels.flatMap((one) => [one, spacer(under)]).concat(key);
  const of = `${mix === null ? "" : `, mix ${figureLabel(mix)}`}${taken.words}`;
  const title = `${quantityWords(property, 40)} against index ${figureLabel(quantity)}${of}`;
  const alt = `${title}: ${own.length} ${own.length === 1 ? "cell" : "cells"}. ${saidTogether(together, options)}`;
  return {
    name: figureName("property", mix ?? "no-mix", property, quantity, taken.name),
    kind: "property",
    title,
    alt,
    spec: page(views, {
      theme: size,
      title,
      alt,
      columns: beside ? 2 : 1,
      row: beside ? under : 0,
      column: left,
      left,
      top: 8,
      bottom: 5,
    }),
  };
}

function range(lo: number | null | undefined, hi: number | null | undefined): [number, number] | null {
  return lo === null || lo === undefined || hi === null || hi === undefined ? null : [lo, hi];
}

function panel(
  points: readonly Point[],
  titles: { x: string; v: string },
  place: { length: number; height: number; looks: ReadonlyMap<string, RegimeLook>; size: Theme; joined: boolean },
): View {
  const { length, height, looks, size, joined } = place;
  const across = domainOf(points.flatMap(({ x, xs }) => [x, ...(xs ?? [])]));
  const up = domainOf(points.flatMap(({ v, vs }) => [v, ...(vs ?? [])]));
  const x = channel("x", { domain: across, axis: { title: titles.x, values: marksOf(across, length, size, "x") } });
  const y = channel("v", {
    domain: up,
    axis: { title: titles.v, values: marksOf(up, height, size, "y"), extent: size.font * 3.2 },
  });
  const color: Json = { field: "c", type: "nominal", scale: null };
  const styled = points.map((point) => ({ ...point, style: looks.get(point.key)!.style }));
  const zero = ([lo, hi]: readonly [number, number]): boolean => lo < 0 && hi > 0;
  return {
    width: length,
    height,
    layer: [
      ...(!joined && zero(across)
        ? [{ data: { values: [{ x: 0 }] }, mark: { type: "rule", strokeWidth: 0.6, color: SOFT }, encoding: { x } }]
        : []),
      ...(!joined && zero(up)
        ? [{ data: { values: [{ v: 0 }] }, mark: { type: "rule", strokeWidth: 0.6, color: SOFT }, encoding: { y } }]
        : []),
      ...(joined
        ? [...new Set(points.map(({ key }) => key))].map((key): Json => {
            const { color: stroke, dash } = looks.get(key)!.style;
            const own = points.filter((point) => point.key === key).sort((a, b) => a.age - b.age);
            return {
              data: { values: own.map(({ x, v, age }) => ({ x, v, age })) },
              mark: { type: "line", strokeWidth: 1, color: stroke, strokeDash: dash },
              encoding: { x, y, order: { field: "age", type: "quantitative" } },
            };
          })
        : []),
      {
        data: { values: styled.flatMap(({ xs, v, style }) => (xs ? [{ x: xs[0], e: xs[1], v, c: style.color }] : [])) },
        mark: { type: "rule", strokeWidth: 0.8 },
        encoding: { x, x2: { field: "e" }, y, color },
      },
      {
        data: { values: styled.flatMap(({ vs, x, style }) => (vs ? [{ v: vs[0], e: vs[1], x, c: style.color }] : [])) },
        mark: { type: "rule", strokeWidth: 0.8 },
        encoding: { x, y, y2: { field: "e" }, color },
      },
      {
        data: { values: styled.map(({ x, v, style }) => ({ x, v, c: style.color, m: style.shape })) },
        mark: { type: "point", size: 34, opacity: 1, stroke: "#ffffff", strokeWidth: 0.5 },
        encoding: { x, y, fill: color, shape: { field: "m", type: "nominal", scale: null } },
      },
    ],
  };
}

function saidTogether(together: readonly TogetherRow[], { property, quantity, mix }: PropertyFigureOptions): string {
  const row = together.find(
    (one) =>
      one.property === property &&
      one.quantity === quantity &&
      (one.mix === mix || one.mix === null) &&
      one.adjusted_for === "age" &&
      one.method === "pearson",
  );
  if (row === undefined || row.r === null) return "Too few for a correlation.";
  const interval =
    row.lo95 === null || row.hi95 === null ? "" : `, 95 % interval ${row.lo95.toFixed(2)} to ${row.hi95.toFixed(2)}`;
  const p = row.p === null ? "" : `, p = ${Number(row.p.toPrecision(2))}`;
  const verdict = row.verdict === "not shown" ? "that they go together is not shown" : row.verdict;
  return `Within ages: correlation ${row.r.toFixed(2)}${interval}${p}: ${verdict}.`;
}
