import type { Margin, Requirement, SufficientRow, SufficientStep } from "../campaign/decisions.ts";
import { standardDeviation } from "../numerics/standardDeviation.ts";
import { studentCdf } from "../numerics/studentCdf.ts";
import { studentQuantile } from "../numerics/studentQuantile.ts";
import { combineTerms } from "../phases/combineTerms.ts";
import { durationsAt } from "./growth.ts";
import { marginFor } from "./marginFor.ts";
import { MOST_DF, pairOf } from "./pairOf.ts";
import { isLengthChange, propertyUnit } from "./propertyUnits.ts";
import { sufficientSentence } from "./sufficientSentence.ts";
import type { ComparedCell, Margins, ScatterChoice } from "./types.ts";

/** Goes with every result. */
export const CAUTION =
  "Specimens in a laboratory are not the structure: how long concrete on site is cured follows the local code and the engineer of record.";

/** Each test is one-sided. */
const ALPHA = 0.05;

/** Options of {@link sufficientCuring}. */
export interface SufficientOptions {
  /** Age at test, whole minutes. */
  test_age_min: number;
  /** By how much a shorter curing may be worse than the longest. @default none: only the requirement counts */
  margins?: Margins;
  /** What a value must reach. @default none */
  requirements?: readonly Requirement[];
  /** @default "pooled" */
  scatter?: ScatterChoice;
}

/**
 * The shortest sufficient curing, for every quantity, mix and curing that has several durations at the test age.
 *
 * From the longest duration down, each is held against the longest: T = x̄_d − (1 − δ)·x̄_longest with its variance (for a margin in the unit
 * of the quantity T = x̄_d − x̄_longest + Δ), one-sided 5 %; where a requirement is stated, the one-sided 95 % bound of x̄_d must meet it too.
 * The first duration that is not shown to hold ends the sequence, so that the risk of calling too short a curing sufficient is 5 %
 * without any adjustment (fixed sequence; W. Maurer, L. A. Hothorn, W. Lehmacher, in Biometrie in der
 * chemisch-pharmazeutischen Industrie 6, 1995).
 *
 * @param cells One quantity of one cell each.
 * @returns A row for each, also where nothing was stated to judge by: the sentence says so. Every row carries its caution.
 *
 * @example
 * ```ts
 * import { parseProperties, propertyCells, sufficientCuring } from "tg-hydrates";
 * const text = `mix,curing,curing_d,age_d,property,value,unit
 * M1,moist,1,28,strength,28,MPa
 * M1,moist,1,28,strength,29,MPa
 * M1,moist,1,28,strength,30,MPa
 * M1,moist,3,28,strength,39,MPa
 * M1,moist,3,28,strength,40,MPa
 * M1,moist,3,28,strength,41,MPa
 * M1,moist,7,28,strength,40,MPa
 * M1,moist,7,28,strength,41,MPa
 * M1,moist,7,28,strength,42,MPa`;
 * const cells = propertyCells(parseProperties(text, { name: "strength.csv" }).rows);
 * const margins = [{ quantity: null, kind: "share", size: 0.1, unit: null } as const];
 * const [row] = sufficientCuring(cells, { test_age_min: 28 * 1440, margins });
 * if (row!.sufficient_d !== 3) throw new Error("three days reach 90 % of seven, one day does not");
 * ```
 */
export function sufficientCuring(cells: readonly ComparedCell[], options: SufficientOptions): SufficientRow[] {
  const quantities = [...new Set(cells.map(({ quantity }) => quantity))];
  return quantities.flatMap((quantity) => {
    const own = cells.filter((cell) => cell.quantity === quantity && cell.age_d !== null);
    const mixes = [...new Set(own.map(({ mix }) => mix))].sort();
    return mixes.flatMap((mix) => {
      const ofMix = own.filter((cell) => cell.mix === mix);
      const curings = [
        ...new Set(ofMix.flatMap(({ curing, curing_d }) => (curing === null || curing_d === 0 ? [] : curing))),
      ].sort();
      return curings.flatMap((curing) => {
        const series = durationsAt(ofMix, curing, options.test_age_min).reverse();
        return series.length < 2 ? [] : [oneRow(series, curing, options)];
      });
    });
  });
}

type Series = readonly { cell: ComparedCell; days: number }[];

function oneRow(series: Series, curing: string, options: SufficientOptions): SufficientRow {
  const { test_age_min, margins = [], requirements = [], scatter = "pooled" } = options;
  const longest = series[0]!;
  const { quantity, unit, mix } = longest.cell;
  const requirement = requirements.find((one) => one.quantity === quantity) ?? null;
  const stated = marginFor(quantity, margins);
  const directed = moreIsBetter(longest.cell) && series.every(({ cell }) => cell.value === null || cell.value > 0);
  const margin = directed ? stated : null;
  const steps: SufficientStep[] = [];
  let going = margin !== null || requirement !== null;
  for (const { cell, days } of series) {
    const step = stepOf(cell, { days, longest: longest.cell, margin, requirement, scatter });
    steps.push(going ? step : { ...step, verdict: step.verdict === "longest" ? "longest" : "not reached" });
    const holds = step.verdict === "holds" || (step.verdict === "longest" && meets(step, requirement));
    going &&= holds;
  }
  const [first, ...shorter] = steps;
  const held = shorter.filter(({ verdict }) => verdict === "holds").at(-1);
  const judged = margin !== null || requirement !== null;
  const sufficient = held ?? (judged && meets(first!, requirement) ? first! : null);
  const row: Omit<SufficientRow, "sentence"> = {
    ...{ quantity, unit, mix, curing },
    age_d: test_age_min / 1440,
    longest_d: longest.days,
    margin,
    requirement,
    sufficient_d: sufficient?.curing_d ?? null,
    steps,
    caution: CAUTION,
  };
  return { ...row, sentence: sufficientSentence(row, { undirected: stated !== null && margin === null }) };
}

function stepOf(
  cell: ComparedCell,
  options: {
    days: number;
    longest: ComparedCell;
    margin: Margin | null;
    requirement: Requirement | null;
    scatter: ScatterChoice;
  },
): SufficientStep {
  const { days, longest, margin, requirement, scatter } = options;
  const bound = boundOf(cell, { at: requirement?.at ?? "least", scatter });
  const shown = {
    curing_d: days,
    curing: cell.curing,
    n: cell.specimens.length,
    value: cell.value,
    share_pct: null,
    share_lower95: null,
    p: null,
    df: null,
    bound95: bound,
  };
  if (cell === longest) return { ...shown, verdict: "longest" };
  const pair = pairOf(cell, longest, { scatter });
  if (typeof pair === "string") return { ...shown, verdict: pair };
  const { df } = pair.of(1);
  const share_pct = pair.reference === 0 ? null : (100 * pair.value) / pair.reference;
  const step = { ...shown, share_pct, share_lower95: lowerShare(pair), df };
  const required = meets(step, requirement);
  if (margin === null) return { ...step, verdict: required ? "holds" : "not shown" };
  const factor = margin.kind === "share" ? 1 - margin.size : 1;
  const error = pair.of(factor);
  const T = pair.value - factor * pair.reference + (margin.kind === "value" ? margin.size : 0);
  const p = studentCdf(-T / error.se, error.df);
  return { ...step, p, df: error.df, verdict: p <= ALPHA && required ? "holds" : "not shown" };
}

/** The largest share of the longest that the value is shown to reach, %: where T = value − share · longest just has p = 5 %. */
function lowerShare(pair: Exclude<ReturnType<typeof pairOf>, string>): number | null {
  if (!(pair.reference > 0)) return null;
  const pOf = (share: number): number => {
    const { se, df } = pair.of(share);
    return studentCdf(-(pair.value - share * pair.reference) / se, df);
  };
  let high = pair.value / pair.reference;
  let low = high - 1;
  if (pOf(low) > ALPHA) return null;
  for (let step = 0; step < 60; step++) {
    const middle = 0.5 * (low + high);
    if (pOf(middle) <= ALPHA) low = middle;
    else high = middle;
  }
  return 100 * low;
}

/** Of hydrates and of strength more is better; of anything else nobody has said so. */
function moreIsBetter({ kind, quantity, unit }: ComparedCell): boolean {
  return kind === "index" || propertyUnit(unit, { length: isLengthChange(quantity) }).kind === "stress";
}

/** One-sided 95 % bound of a cell's mean on the side that a requirement asks about; null where the scatter is not known. */
function boundOf(cell: ComparedCell, options: { at: Requirement["at"]; scatter: ScatterChoice }): number | null {
  const { specimens, value, shared } = cell;
  const n = specimens.length;
  const { at } = options;
  const own = options.scatter === "welch";
  if (value === null || cell.scatter === null || n < (own ? 3 : 2)) return null;
  const { a, b, df: pooled } = cell.scatter;
  const s = own ? standardDeviation(specimens.map((one) => one.value)) : a + b * Math.abs(value);
  const random = s / Math.sqrt(n);
  const u = Math.hypot(random, combineTerms(shared));
  const df = random === 0 ? MOST_DF : Math.min((own ? n - 1 : pooled) * (u / random) ** 4, MOST_DF);
  const half = studentQuantile(1 - ALPHA, df) * u;
  return at === "least" ? value - half : value + half;
}

function meets({ bound95 }: Pick<SufficientStep, "bound95">, requirement: Requirement | null): boolean {
  if (requirement === null) return true;
  if (bound95 === null) return false;
  return requirement.at === "least" ? bound95 >= requirement.value : bound95 <= requirement.value;
}
