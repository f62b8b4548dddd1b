import { ageWords } from "../../campaign/ageWords.ts";
import type { ContrastRow } from "../../campaign/decisions.ts";
import type { Campaign } from "../../campaign/types.ts";
import { regimeWords } from "../../compare/words.ts";
import { decimalsFor, fixed, signed } from "../decisionWords.ts";
import { cellRows } from "./cellRows.ts";
import { channel, marksOf } from "./channel.ts";
import { domainOf } from "./domainOf.ts";
import { figureLabel } from "./figureLabel.ts";
import { figureName } from "./figureName.ts";
import { keyStrip } from "./keyStrip.ts";
import { page, type View } from "./page.ts";
import { type Part, part } from "./part.ts";
import { quantityWords, unitWords } from "./quantityWords.ts";
import { regimesOf } from "./regimesOf.ts";
import { spacer } from "./spacer.ts";
import { type FigureOptions, INK, SHADE, SOFT, theme } from "./theme.ts";
import type { Figure, Json } from "./types.ts";

/** Options of {@link contrastsFigure}; the part is one of the comparisons. */
export interface ContrastsFigureOptions extends FigureOptions, Part {
  /** Window or property. */
  quantity: string;
  mix: string | null;
  /** Other regimes at the same age, or other ages of the same regime. @default "regime" */
  against?: "regime" | "age";
}

/**
 * Differences from the reference with 95 % and 90 % intervals, and the margin within which a difference does not matter: the
 * 90 % interval inside the margin is what shows equivalence. Comparisons without a value keep their row, empty.
 *
 * @throws RangeError for a quantity and mix without such comparisons.
 *
 * @example
 * ```ts
 * import { compare, contrastsFigure, exampleCampaign, indexBytes, planRuns, protocols, settle, summarise } from "tg-hydrates";
 * const { files } = exampleCampaign(1, { size: "small" });
 * const bytesOf = (name: string) => files.find((file) => file.name === name)!.bytes;
 * const sheet = { name: "sheet.csv", text: new TextDecoder().decode(bytesOf("sheet.csv")) };
 * const protocol = settle(protocols.csa);
 * const { jobs } = planRuns({ sheet, files: files.map(({ name }) => name) });
 * const campaign = summarise(jobs.map((job) => indexBytes(bytesOf(job.file), job, { protocol })), { protocol });
 * const mix = campaign.ages[0]!.mix;
 * const decisions = compare(campaign, { reference: "sealed" });
 * const figure = contrastsFigure({ ...campaign, decisions }, { mix, quantity: "aft-afm" });
 * if (figure.kind !== "contrasts") throw new Error("differences from the reference");
 * ```
 */
export function contrastsFigure(
  campaign: Pick<Campaign, "ages" | "runs" | "decisions">,
  options: ContrastsFigureOptions,
): Figure {
  const { quantity, mix, against = "regime", width } = options;
  const taken = part(
    (campaign.decisions?.contrasts ?? []).filter(
      (row) => row.quantity === quantity && row.mix === mix && row.against === against,
    ),
    options,
    "comparisons",
  );
  const rows = taken.items;
  const [first] = rows;
  if (first === undefined) {
    throw new RangeError(`Name a quantity and a mix that were compared, not ${quantity} and ${mix}`);
  }
  const size = theme(width);
  const cells = cellRows(rows, regimesOf(campaign, size.label), size);
  const left = cells.left;
  const length = size.width - left - 10;
  const domain = domainOf(
    rows.flatMap(({ difference, lo95, hi95, margin }) => [
      difference,
      lo95,
      hi95,
      margin,
      margin === null ? null : -margin,
    ]),
    { zero: true },
  );
  const to = against === "age" ? `value at ${first.reference.replace(/^age /, "")}` : figureLabel(first.reference, 20);
  const unit = unitWords(first.unit);
  const x = channel("d", {
    domain,
    axis: {
      title: `${quantityWords(quantity, 22)}, difference from ${to} / ${unit}`,
      values: marksOf(domain, length, size, "x"),
    },
  });
  const data = (wanted: (row: ContrastRow) => boolean, give: (row: ContrastRow) => Record<string, Json>): Json => ({
    values: rows.flatMap((row, r) => (wanted(row) ? [{ r, ...give(row) }] : [])),
  });
  const shown = ({ difference_verdict: verdict }: ContrastRow): boolean => verdict === "lower" || verdict === "higher";
  const y = cells.y;
  const plot: View = {
    width: length,
    height: cells.height,
    layer: [
      {
        data: data(
          ({ margin }) => margin !== null,
          ({ margin }) => ({ d: -margin!, e: margin! }),
        ),
        mark: { type: "rule", strokeWidth: cells.step - 1.5, color: SHADE },
        encoding: { x, x2: { field: "e" }, y },
      },
      { data: { values: [{ d: 0 }] }, mark: { type: "rule", strokeWidth: 0.7, color: SOFT }, encoding: { x } },
      {
        data: data(
          ({ lo95 }) => lo95 !== null,
          ({ lo95, hi95 }) => ({ d: lo95, e: hi95 }),
        ),
        mark: { type: "rule", strokeWidth: 0.9, color: INK },
        encoding: { x, x2: { field: "e" }, y },
      },
      {
        data: data(
          ({ lo90 }) => lo90 !== null,
          ({ lo90, hi90 }) => ({ d: lo90, e: hi90 }),
        ),
        mark: { type: "rule", strokeWidth: 2.6, color: INK },
        encoding: { x, x2: { field: "e" }, y },
      },
      {
        data: data(
          ({ difference }) => difference !== null,
          (row) => ({ d: row.difference, f: shown(row) ? INK : "#ffffff" }),
        ),
        mark: { type: "point", shape: "circle", size: 36, strokeWidth: 1.1, stroke: INK, opacity: 1 },
        encoding: { x, y, fill: { field: "f", type: "nominal", scale: null } },
      },
      ...cells.names,
    ],
  };
  const key = keyStrip(
    [
      { label: "difference shown", shape: "circle" },
      { label: "not shown", shape: "circle", filled: false },
      { label: "95 % interval", dash: [1, 0], thick: 0.9 },
      { label: "90 % interval", dash: [1, 0], thick: 2.6 },
      ...(rows.some(({ margin }) => margin !== null) ? [{ label: "within the margin", box: SHADE }] : []),
    ],
    size,
    { width: size.width - 12, left: left - 6 },
  );
  const of = `${mix === null ? "" : `, mix ${figureLabel(mix)}`}${taken.words}`;
  const title = `${quantityWords(quantity, 40)}: difference from ${to}${of}`;
  const alt = altOf(rows, { title, to });
  return {
    name: figureName("contrasts", mix ?? "no-mix", quantity, against === "age" ? "age" : null, taken.name),
    kind: "contrasts",
    title,
    alt,
    spec: page([plot, spacer(size.font * 3 + 12), key], { theme: size, title, alt, left, top: 6, bottom: 5 }),
  };
}

function altOf(rows: readonly ContrastRow[], { title, to }: { title: string; to: string }): string {
  const halves = rows.flatMap(({ lo95, hi95 }) => (lo95 === null || hi95 === null ? [] : [(hi95 - lo95) / 2]));
  const decimals = decimalsFor(halves);
  const found = rows.filter(({ difference_verdict: verdict }) => verdict === "lower" || verdict === "higher");
  const within = rows.filter(({ equivalence_verdict: verdict }) => verdict === "within margin").length;
  const asked = rows.some(({ margin }) => margin !== null);
  const [largest] = rows
    .filter(({ difference }) => difference !== null)
    .sort((a, b) => Math.abs(b.difference!) - Math.abs(a.difference!));
  const said =
    largest === undefined
      ? "None has a value."
      : `The largest is ${figureLabel(regimeWords(largest))} at ${ageWords(largest.age_d)}: ${signed(largest.difference, decimals)} ${figureLabel(largest.unit)}${
          largest.lo95 === null
            ? ", no interval"
            : ` (95 % interval ${fixed(largest.lo95, decimals)} to ${fixed(largest.hi95, decimals)})`
        }.`;
  const margin = asked ? `, ${within} lie within the margin` : "";
  return `${title}: of ${rows.length} ${rows.length === 1 ? "comparison" : "comparisons"} with ${to}, ${found.length} ${found.length === 1 ? "shows" : "show"} a difference${margin}. ${said}`;
}
