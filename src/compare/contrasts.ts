import { ageText } from "../campaign/ageText.ts";
import { compareKeys } from "../campaign/compareKeys.ts";
import type { ContrastFamily, ContrastRow, Margin, NoVerdict } from "../campaign/decisions.ts";
import { adjustFamily, FAMILY_ALPHA } from "./adjustFamily.ts";
import { cellKey, minutesOf } from "./cellKey.ts";
import { compareCells, smallestShown } from "./compareCells.ts";
import { isRegime } from "./findRegime.ts";
import { marginFor } from "./marginFor.ts";
import { type Pair, pairOf } from "./pairOf.ts";
import { regimeText } from "./regimeText.ts";
import type { ComparedCell, Margins, Regime, ScatterChoice } from "./types.ts";

/** How cells are compared; all of it decided before looking at the values. */
export interface ContrastOptions {
  /** Regime that the others are held against. */
  reference: Regime;
  /** Age that the other ages of a regime are held against, whole minutes; null for none. @default null */
  reference_age_min?: number | null;
  /** @default none */
  margins?: Margins;
  /** @default "holm" */
  adjustment?: "holm" | "dunnett";
  /** @default "pooled" */
  scatter?: ScatterChoice;
  /** `window`: one family per window (or property), mix and kind of reference; `campaign`: one in all. @default "window" */
  family?: "window" | "campaign";
  /** Whether the verdicts are enough: no smallest margin, and of p only on which side of 5 % it lies. @default false */
  coarse?: boolean;
}

/**
 * Every curing regime against the reference at the same mix and age, and every age of a regime against its reference age.
 *
 * Two verdicts that are never merged. `difference`: `lower` or `higher` where p, adjusted within its family, is at most 5 %, otherwise
 * `not shown`, which does not say that the values are the same. `equivalence`: by two one-sided tests of 5 % each,
 * `within margin`, `outside margin` or `not shown`, for this comparison alone. Where there is no verdict to be had the reason stands in both.
 *
 * @param cells One quantity of one cell each, every cell once.
 * @returns Rows in the order in which the cells name their quantities, then by mix, kind of reference, regime and age; the families that
 * were judged together.
 * @throws RangeError for a cell or a specimen that stands there twice: aliquots of one specimen are averaged first.
 *
 * @example
 * ```ts
 * import { contrasts } from "tg-hydrates";
 * const scatter = { model: "constant", a: 1, b: 0, df: 12 } as const;
 * const cell = (curing: string, values: number[]) => ({
 *   ...{ mix: "M1", curing, curing_d: null, age_d: 28, quantity: "strength", kind: "property", unit: "MPa" } as const,
 *   specimens: values.map((value, i) => ({ specimen: `${i}`, value })),
 *   ...{ value: values.reduce((a, b) => a + b) / values.length, shared: [], scatter, flags: [] },
 * });
 * const { rows } = contrasts([cell("moist", [40, 41, 42]), cell("air", [30, 31, 32])], { reference: { curing: "moist" } });
 * if (rows[0]!.difference_verdict !== "lower" || rows[0]!.equivalence_verdict !== "no margin given") throw new Error("10 MPa less");
 * ```
 */
export function contrasts(
  cells: readonly ComparedCell[],
  options: ContrastOptions,
): { rows: ContrastRow[]; families: ContrastFamily[] } {
  const { reference, reference_age_min = null, family = "window" } = options;
  checkCells(cells);
  const quantities = [...new Set(cells.map(({ quantity }) => quantity))];
  const sorted = [...cells].sort(
    (a, b) => quantities.indexOf(a.quantity) - quantities.indexOf(b.quantity) || compareKeys(cellKey(a), cellKey(b)),
  );
  const made: Made[] = [];
  for (const quantity of quantities) {
    const own = sorted.filter((cell) => cell.quantity === quantity);
    const mixes = [...new Set(own.map(({ mix }) => mix))];
    for (const mix of mixes) {
      const ofMix = own.filter((cell) => cell.mix === mix);
      made.push(...againstRegime(ofMix, reference, options));
      if (reference_age_min !== null) made.push(...againstAge(ofMix, reference_age_min, options));
    }
  }
  const families = new Map<string, Made[]>();
  for (const one of made) {
    const name = family === "campaign" ? "campaign" : one.family;
    families.set(name, [...(families.get(name) ?? []), one]);
  }
  const judged = [...families].map(([name, members]) => judge(name, members, options));
  return { rows: made.map(({ row }) => row), families: judged.filter(({ size }) => size > 0) };
}

/** A row that waits for its family. */
interface Made {
  row: ContrastRow;
  family: string;
  pair: Pair | null;
  t: number;
  block: string;
}

function againstRegime(cells: readonly ComparedCell[], reference: Regime, options: ContrastOptions): Made[] {
  return cells
    .filter((cell) => !isRegime(cell, reference))
    .map((cell) => {
      const age = minutesOf(cell.age_d);
      const other = cells.find((one) => isRegime(one, reference) && minutesOf(one.age_d) === age) ?? null;
      const name = regimeText({ curing: reference.curing, curing_d: reference.curing_d ?? null });
      const family = `${cell.quantity}, ${cell.mix ?? "-"}: regimes against ${name}`;
      return make(cell, other, options, { against: "regime", name, family, block: `${age}` });
    });
}

function againstAge(cells: readonly ComparedCell[], age_min: number, options: ContrastOptions): Made[] {
  return cells
    .filter(({ age_d }) => age_d !== null && minutesOf(age_d) !== age_min)
    .map((cell) => {
      const regime = { curing: cell.curing, curing_d: cell.curing_d };
      const other = cells.find((one) => isRegime(one, regime) && minutesOf(one.age_d) === age_min) ?? null;
      const name = `age ${ageText(age_min)}`;
      const family = `${cell.quantity}, ${cell.mix ?? "-"}: ages against ${ageText(age_min)}`;
      return make(cell, other, options, { against: "age", name, family, block: regimeText(cell) });
    });
}

function make(
  cell: ComparedCell,
  reference: ComparedCell | null,
  options: ContrastOptions,
  as: { against: "regime" | "age"; name: string; family: string; block: string },
): Made {
  const { against, name, family, block } = as;
  const { margins = [], scatter = "pooled", coarse = false } = options;
  const { mix, curing, curing_d, age_d, quantity, unit, specimens, value } = cell;
  const margin = marginFor(quantity, margins);
  const pair = pairOf(cell, reference, { scatter });
  const shared = {
    ...{ mix, curing, curing_d, age_d, quantity, unit, against, reference: name },
    n: specimens.length,
    n_reference: reference?.specimens.length ?? 0,
    value,
    value_reference: reference?.value ?? null,
    p_adjusted: null,
    robust: null,
    sensitive_to: [],
    untested: [],
    family: null,
    flags: [...new Set([...cell.flags, ...(reference?.flags ?? [])])].sort(),
  };
  if (typeof pair === "string") {
    const row = { ...shared, ...withoutVerdict(pair, cell, { reference, margin }), method: scatter };
    return { row, family, pair: null, t: 0, block };
  }
  const { t, ratio_by, ...compared } = compareCells(pair, { margin });
  const row: ContrastRow = {
    ...shared,
    ...compared,
    n: pair.n,
    n_reference: pair.n_reference,
    value: pair.value,
    value_reference: pair.reference,
    difference_verdict: "not shown",
    smallest_margin: coarse ? null : smallestShown(pair),
    method: [pair.by, ...(ratio_by === null ? [] : [`ratio by ${ratio_by}`])].join("; "),
  };
  return { row, family, pair, t, block };
}

function withoutVerdict(
  reason: NoVerdict,
  cell: ComparedCell,
  { reference, margin }: { reference: ComparedCell | null; margin: Margin | null },
) {
  const none = { lo95: null, hi95: null, lo90: null, hi90: null, df: null, p: null };
  const [a, b] = [cell.value, reference?.value ?? null];
  const both = a !== null && b !== null;
  return {
    ...none,
    difference: both ? a - b : null,
    ratio_pct: both && a > 0 && b > 0 ? (100 * a) / b : null,
    ratio_lo95: null,
    ratio_hi95: null,
    margin: margin === null || b === null ? null : margin.kind === "value" ? margin.size : margin.size * Math.abs(b),
    difference_verdict: reason,
    equivalence_verdict: reason,
    smallest_margin: null,
  };
}

/** Adjusts the p values of a family and gives its rows their verdicts. */
function judge(name: string, members: readonly Made[], options: ContrastOptions): ContrastFamily {
  const counted = members.filter((one): one is Made & { pair: Pair } => one.pair !== null);
  const sameScatter = new Set(counted.map(({ row }) => row.quantity)).size === 1;
  const { ps, adjustment } = adjustFamily(
    counted.map(({ row, pair, t, block }) => ({
      t,
      p: row.p!,
      lambda: pair.lambda,
      block,
      scatter_df: pair.by === "pooled" && sameScatter ? pair.scatter_df : null,
    })),
    { adjustment: options.adjustment ?? "holm", coarse: options.coarse ?? false },
  );
  for (const [i, { row }] of counted.entries()) {
    row.family = name;
    row.p_adjusted = ps[i]!;
    if (row.p_adjusted <= FAMILY_ALPHA) row.difference_verdict = row.difference! < 0 ? "lower" : "higher";
    row.method += `; ${adjustment} over ${counted.length}`;
  }
  return { family: name, size: counted.length, adjustment };
}

/** A cell or a specimen that is there twice would count twice. */
function checkCells(cells: readonly ComparedCell[]): void {
  const seen = new Set<string>();
  for (const cell of cells) {
    const key = JSON.stringify([cell.quantity, ...cellKey(cell)]);
    const place = `${cell.quantity} of ${cell.mix ?? "-"}, ${regimeText(cell)}, ${cell.age_d ?? "-"} d`;
    if (seen.has(key)) throw new RangeError(`Give every cell once: ${place} is there twice`);
    seen.add(key);
    const names = cell.specimens.map(({ specimen }) => specimen);
    const twice = names.find((name, i) => names.indexOf(name) < i);
    if (twice !== undefined) {
      throw new RangeError(
        `Average the aliquots of a specimen first: ${place} has the specimen ${JSON.stringify(twice)} more than once`,
      );
    }
  }
}
