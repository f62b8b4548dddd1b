import type { Asked, ContrastRow, Decisions, Margin, Requirement } from "../campaign/decisions.ts";
import type { Campaign } from "../campaign/types.ts";
import { minutesOf } from "./cellKey.ts";
import { checkMargin, checkRequirement, chosenAge } from "./checkAsked.ts";
import { CompareError } from "./compareError.ts";
import { compareRemarks } from "./compareRemarks.ts";
import { contrasts } from "./contrasts.ts";
import { findRegime } from "./findRegime.ts";
import { growth } from "./growth.ts";
import { indexCells } from "./indexCells.ts";
import { partedWays, windowIsHydrate } from "./partedWays.ts";
import { planReplicates } from "./planReplicates.ts";
import { propertyCells } from "./propertyCells.ts";
import { propertyRows } from "./propertyRows.ts";
import { robustness } from "./robustness.ts";
import { sufficientCuring } from "./sufficientCuring.ts";
import { together } from "./together.ts";
import type { ComparedCell, PropertyRow, ScatterChoice } from "./types.ts";
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
    remarks: compareRemarks(tested, { indices, properties, asked }),
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
