import { ageText } from "../campaign/ageText.ts";
import type { Asked, ContrastRow, Decisions, Margin, Requirement } from "../campaign/decisions.ts";
import { someNames } from "../campaign/someNames.ts";
import type { Campaign } from "../campaign/types.ts";
import { nearestName } from "../nearestName.ts";
import { minutesOf } from "./cellKey.ts";
import { CompareError } from "./compareError.ts";
import { contrasts } from "./contrasts.ts";
import { findRegime } from "./findRegime.ts";
import { growth } from "./growth.ts";
import { indexCells } from "./indexCells.ts";
import { partedWays, windowIsHydrate } from "./partedWays.ts";
import { planReplicates } from "./planReplicates.ts";
import { propertyCells } from "./propertyCells.ts";
import { propertyRows } from "./propertyRows.ts";
import { propertyUnit } from "./propertyUnits.ts";
import { robustness } from "./robustness.ts";
import { sufficientCuring } from "./sufficientCuring.ts";
import { together } from "./together.ts";
import type { ComparedCell, PropertyRow, ScatterChoice } from "./types.ts";
import { ageWords, regimeWords } from "./words.ts";
import { writtenForm } from "./writtenForm.ts";

/** What is asked of a comparison; all of it decided before looking at the values. */
export interface CompareOptions {
  /** Curing regime that the others are held against: `CURING` or `CURING:DAYS`. */
  reference: string;
  /** Age that the other ages of a regime are held against, days. @default 28 where a cell has it, else the latest */
  reference_age_d?: number;
  /** Age at which the shortest sufficient curing is looked for, days. @default the reference age */
  test_age_d?: number;
  /** From `parseProperties`. @default none */
  properties?: readonly PropertyRow[];
  /** @default none */
  margins?: readonly Margin[];
  /** A requirement without a unit is in that of its quantity. @default none */
  requirements?: readonly Requirement[];
  /** @default "holm" */
  adjustment?: "holm" | "dunnett";
  /** @default "pooled" */
  scatter?: ScatterChoice;
  /** @default "window" */
  family?: "window" | "campaign";
}

/** The age that most standards for strength report, days. */
const USUAL_AGE_MIN = 28 * 1440;

/**
 * What a campaign says about its curing regimes: contrasts with their verdicts, growth, properties, whether hydrates and properties go
 * together, the shortest sufficient curing, and what the repeatability allows to show.
 *
 * Computed from numbers as the outputs write them (9 significant digits), so that a folder and its campaign.json give the same.
 *
 * @param campaign From `summarise`, `indexFolder` or `campaignFromJson`; not changed.
 * @throws CompareError for a reference, an age, a margin or a requirement that nothing in the campaign answers to.
 *
 * @example
 * ```ts
 * import { compare, exampleCampaign, indexBytes, parseSheet, protocols, settle, summarise } from "tg-hydrates";
 * const protocol = settle(protocols.csa);
 * const { files } = exampleCampaign(7, { size: "small", rows: 300 });
 * const text = (name: string) => new TextDecoder().decode(files.find((file) => file.name === name)!.bytes);
 * const { rows } = parseSheet(text("sheet.csv"), { name: "sheet.csv" });
 * const runs = rows.map((job) => indexBytes(files.find(({ name }) => name === job.file)!.bytes, job, { protocol }));
 * const { contrasts } = compare(summarise(runs, { protocol }), { reference: "sealed" });
 * if (!contrasts.some((row) => row.quantity === "aft-afm" && row.difference_verdict === "lower")) throw new Error("less water");
 * ```
 */
export function compare(campaign: Campaign, options: CompareOptions): Decisions {
  const { adjustment = "holm", scatter = "pooled", family = "window" } = options;
  const written = writtenForm({ runs: campaign.runs, protocol: campaign.protocol });
  const indices = indexCells(written);
  const properties = propertyCells(writtenForm([...(options.properties ?? [])]));
  const cells = [...indices, ...properties];
  if (cells.length === 0) throw new CompareError("No run has the role specimen: there is nothing to compare.");
  checkNames(indices, properties);
  const reference = findRegime(options.reference, cells);
  const ages = agesOf(cells);
  const reference_age_min = chosenAge(options.reference_age_d, ages, "reference age");
  const test_age_min =
    options.test_age_d === undefined ? reference_age_min : chosenAge(options.test_age_d, ages, "age at test");
  const margins = (options.margins ?? []).map((margin) => checkMargin(margin, cells));
  const requirements = (options.requirements ?? []).map((requirement) => checkRequirement(requirement, cells));
  const asked: Asked = {
    reference: options.reference,
    reference_age_d: reference_age_min === null ? null : reference_age_min / 1440,
    test_age_d: test_age_min === null ? null : test_age_min / 1440,
    adjustment,
    scatter,
    family,
    margins,
    requirements,
  };
  const choices = { reference, reference_age_min, margins, adjustment, scatter, family };
  const { rows, families } = contrasts(cells, choices);
  const tested = robustness(rows, written, { ...choices, cells });
  const windows = written.protocol.windows;
  const hydrates = new Set(windows.filter(windowIsHydrate).map(({ name }) => name));
  const judged = cells.filter(({ kind, quantity }) => kind === "property" || hydrates.has(quantity));
  const { rows: correlations, pairs } = together(indices, properties);
  return {
    asked,
    families,
    contrasts: tested,
    growth: growth(cells),
    properties: propertyRows(properties, { contrasts: tested, scatter }),
    together: correlations,
    pairs,
    parted: partedWays(tested, windows),
    sufficient: test_age_min === null ? [] : sufficientCuring(judged, { test_age_min, margins, requirements, scatter }),
    planning: planReplicates(cells, { comparisons: sizesOf(tested), margins }),
    remarks: remarksOf(tested, { indices, properties, asked }),
  };
}

/** A property that is called like a window would be taken for it. */
function checkNames(indices: readonly ComparedCell[], properties: readonly ComparedCell[]): void {
  const windows = new Set(indices.map(({ quantity }) => quantity));
  const clash = properties.find(({ quantity }) => windows.has(quantity));
  if (clash) {
    throw new CompareError(
      `The property ${JSON.stringify(clash.quantity)} has the name of a window: give it another name.`,
    );
  }
}

function agesOf(cells: readonly ComparedCell[]): number[] {
  return [...new Set(cells.flatMap(({ age_d }) => minutesOf(age_d) ?? []))].sort((a, b) => a - b);
}

function chosenAge(asked_d: number | undefined, ages: readonly number[], what: string): number | null {
  if (asked_d === undefined) return ages.includes(USUAL_AGE_MIN) ? USUAL_AGE_MIN : (ages.at(-1) ?? null);
  const minutes = Math.round(asked_d * 1440);
  if (ages.includes(minutes)) return minutes;
  const there = someNames(ages.map(ageText), { most: 20 });
  throw new CompareError(`No cell has the ${what} ${ageText(minutes)}. There are: ${there || "no ages at all"}.`);
}

function checkQuantity(quantity: string, cells: readonly ComparedCell[], what: string): ComparedCell {
  const found = cells.find((cell) => cell.quantity === quantity);
  if (found) return found;
  const known = [...new Set(cells.map((cell) => cell.quantity))];
  const nearest = nearestName(quantity, known);
  const help = nearest === null ? "" : `Did you mean ${nearest}? `;
  throw new CompareError(
    `The ${what} names ${JSON.stringify(quantity)}, which is no window and no property here. ${help}There are: ${someNames(known, { most: 20 })}.`,
  );
}

function checkMargin(margin: Margin, cells: readonly ComparedCell[]): Margin {
  const { quantity, kind, size } = margin;
  if (!(size > 0 && Number.isFinite(size)) || (kind === "share" && size >= 1)) {
    const shown = kind === "share" ? `${100 * size} %` : `${size}`;
    throw new CompareError(`Give a margin above 0${kind === "share" ? " and below 100 %" : ""}, not ${shown}.`);
  }
  if (quantity === null) {
    if (kind === "share") return margin;
    throw new CompareError("A margin that is no percentage belongs to one quantity: name it, such as strength=3.");
  }
  const cell = checkQuantity(quantity, cells, "margin");
  if (kind === "share") return margin;
  const factor = conversion(margin.unit ?? cell.unit, cell);
  if (factor !== null) return { ...margin, size: size * factor, unit: cell.unit };
  throw new CompareError(
    `The margin for ${quantity} is in ${margin.unit}, which does not convert into ${cell.unit}: give it in ${cell.unit}.`,
  );
}

/** Factor from a unit to that of a cell; null where it does not convert. */
function conversion(unit: string, cell: ComparedCell): number | null {
  if (unit === "" || unit === cell.unit) return 1;
  if (cell.kind !== "property") return null;
  const own = propertyUnit(cell.unit, { length: true });
  const given = propertyUnit(unit, { length: own.kind === "strain" });
  return own.kind === given.kind ? given.factor / own.factor : null;
}

/** A requirement in the unit of its quantity. */
function checkRequirement(requirement: Requirement, cells: readonly ComparedCell[]): Requirement {
  const { quantity, unit, value } = requirement;
  const cell = checkQuantity(quantity, cells, "requirement");
  const factor = conversion(unit, cell);
  if (factor !== null) return { ...requirement, unit: cell.unit, value: value * factor };
  throw new CompareError(
    `The requirement for ${quantity} is in ${unit}, which does not convert into ${cell.unit}: give it in ${cell.unit}.`,
  );
}

/** Size of the largest family of each quantity. */
function sizesOf(rows: readonly ContrastRow[]): Record<string, number> {
  const counts = new Map<string, number>();
  for (const { family, p } of rows)
    if (family !== null && p !== null) counts.set(family, (counts.get(family) ?? 0) + 1);
  const sizes = new Map<string, number>();
  for (const { quantity, family } of rows) {
    sizes.set(quantity, Math.max(sizes.get(quantity) ?? 1, counts.get(family ?? "") ?? 1));
  }
  return Object.fromEntries(sizes);
}

/** What could not be compared, counted by its reason. */
function remarksOf(
  rows: readonly ContrastRow[],
  context: { indices: readonly ComparedCell[]; properties: readonly ComparedCell[]; asked: Asked },
): string[] {
  const { indices, properties, asked } = context;
  const remarks: string[] = [];
  const reasons: Record<string, string> = {
    "one-specimen":
      "one of the two cells has one specimen, whose scatter nobody knows: measure at least two, better three",
    "no-reference": "the reference has no cell at this mix and age",
    "no-value": "no run of the cell has the value",
    "too-few-specimens": "a cell has fewer than three specimens, and its own scatter was asked for",
    "no-scatter": "the specimens do not scatter at all: check that they are not copies of one another",
  };
  for (const [reason, sentence] of Object.entries(reasons)) {
    const own = rows.filter(({ difference_verdict }) => difference_verdict === reason);
    if (own.length === 0) continue;
    const names = own.map(
      (row) =>
        `${row.quantity} of ${row.mix ?? "-"}, ${regimeWords(row)} at ${ageWords(row.age_d)} against ${row.reference}`,
    );
    remarks.push(
      `${own.length} of ${rows.length} comparisons have no verdict (${reason}), since ${sentence}. They are: ${names.slice(0, 3).join("; ")}${names.length > 3 ? ` and ${names.length - 3} more` : ""}.`,
    );
  }
  if (indices.length > 0 && indices.every(({ specimens }) => specimens.length < 2)) {
    remarks.push("No cell has two specimens: how far specimens scatter is not known, and no difference can be judged.");
  }
  if (rows.every(({ against }) => against !== "regime")) {
    remarks.push(`There is no regime besides ${asked.reference}: nothing is held against it.`);
  }
  const ageless = new Set(
    [...indices, ...properties].filter(({ age_d }) => age_d === null).map(({ quantity }) => quantity),
  );
  if (ageless.size > 0) {
    remarks.push("Cells without an age are held against the reference without an age, and left out of growth.");
  }
  return remarks;
}
