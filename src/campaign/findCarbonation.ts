import { molarMass } from "../chemistry/molarMass.ts";
import type { Window } from "../losses/types.ts";
import { studentQuantile } from "../numerics/studentQuantile.ts";
import { phasePerGas } from "../phases/phasePerGas.ts";
import { ageText } from "./ageText.ts";
import type { AgeRow, ScatterRow } from "./types.ts";

/** Carbonate that rises. */
export interface Carbonation {
  mix: string | null;
  window: string;
  by: "age" | "regime";
  /** With the figures. */
  sentence: string;
}

/** One cell that can be compared. */
interface Cell {
  row: AgeRow;
  value: number;
  u: number;
}

/** Error of the first kind over all comparisons of one window of a campaign. */
const ALPHA = 0.05;

/**
 * Whether carbonate rises with age or differs between regimes, in every window that declares carbon dioxide.
 *
 * With age: slope of the index on ln(age) within one mix and regime, least squares weighted by the cells' scatter of specimens
 * (shared errors cancel), one-sided t with the degrees of freedom of the pooled scatter. Between regimes: the largest
 * against the smallest cell of one mix and age, two-sided over all pairs. Five per cent are shared among all of these (Bonferroni).
 * Without a pooled scatter nothing is tested.
 */
export function findCarbonation(
  ages: readonly AgeRow[],
  options: { windows: readonly Window[]; scatter: readonly ScatterRow[] },
): Carbonation[] {
  return options.windows.flatMap(({ name, amount }) => {
    if (amount === undefined || phasePerGas(amount).gas !== "CO2") return [];
    const df = options.scatter.find(({ window }) => window === name)?.df;
    if (df === undefined) return [];
    const cells = ages.flatMap((row): Cell[] =>
      row.window === name && "value" in row.index && row.u_random !== null
        ? [{ row, value: row.index.value, u: row.u_random }]
        : [],
    );
    const series = groupBy(cells, ({ row: { mix, curing, curing_d } }) => [mix, curing, curing_d])
      .map((group) => group.filter(({ row }) => row.age_d !== null && row.age_d > 0))
      .filter((group) => new Set(group.map(({ row }) => row.age_d)).size > 1);
    const regimes = groupBy(cells, ({ row: { mix, age_d } }) => [mix, age_d]).filter((group) => group.length > 1);
    // Every pair of regimes can be the largest and the smallest, either way round.
    const tests = series.length + regimes.reduce((sum, { length: n }) => sum + n * (n - 1), 0);
    if (tests === 0) return [];
    const limit = studentQuantile(1 - ALPHA / tests, df);
    return [...series.flatMap((group) => rising(group, limit)), ...regimes.flatMap((group) => apart(group, limit))];
  });
}

function groupBy(cells: readonly Cell[], key: (cell: Cell) => unknown[]): Cell[][] {
  const groups = new Map<string, Cell[]>();
  for (const cell of cells) {
    const name = JSON.stringify(key(cell));
    groups.set(name, [...(groups.get(name) ?? []), cell]);
  }
  return [...groups.values()];
}

function rising(group: readonly Cell[], limit: number): Carbonation[] {
  // Cells without any scatter weigh alike.
  const smallest = Math.min(...group.map(({ u }) => u).filter((u) => u > 0));
  const weights = group.map(({ u }) => (Number.isFinite(smallest) ? 1 / Math.max(u, smallest) ** 2 : 1));
  const x = group.map(({ row }) => Math.log(row.age_d!));
  const total = weights.reduce((sum, w) => sum + w, 0);
  const centre = weights.reduce((sum, w, i) => sum + w * x[i]!, 0) / total;
  const spread = weights.reduce((sum, w, i) => sum + w * (x[i]! - centre) ** 2, 0);
  const slope = weights.reduce((sum, w, i) => sum + w * (x[i]! - centre) * group[i]!.value, 0) / spread;
  const u = Number.isFinite(smallest) ? 1 / Math.sqrt(spread) : 0;
  if (slope <= limit * u) return [];
  const sorted = [...group].sort((a, b) => a.row.age_d! - b.row.age_d!);
  const [first, last] = [sorted[0]!, sorted.at(-1)!];
  const { mix, window } = first.row;
  const sentence = `Carbonate (${window}) of ${regimeOf(first.row)} rises with age: ${co2(first)} at ${ageOf(first)}, ${co2(last)} at ${ageOf(last)}.`;
  return [{ mix, window, by: "age", sentence }];
}

function apart(group: readonly Cell[], limit: number): Carbonation[] {
  const sorted = [...group].sort((a, b) => a.value - b.value);
  const [low, high] = [sorted[0]!, sorted.at(-1)!];
  if (high.value - low.value <= limit * Math.hypot(low.u, high.u)) return [];
  const { mix, window } = low.row;
  const sentence = `Carbonate (${window}) differs between regimes at ${ageOf(low)}: ${co2(low)} in ${regimeOf(low.row)}, ${co2(high)} in ${regimeOf(high.row)}.`;
  return [{ mix, window, by: "regime", sentence }];
}

function regimeOf({ mix, curing, curing_d }: AgeRow): string {
  const days = curing_d === null ? "" : ` for ${Number(curing_d.toPrecision(6))} d`;
  return [mix, `${curing ?? ""}${days}`.trim()].filter(Boolean).join(", ") || "the specimens";
}

function ageOf({ row }: Cell): string {
  return row.age_d === null ? "unknown age" : ageText(Math.round(row.age_d * 1440));
}

function co2({ value }: Cell): string {
  return `${value.toFixed(2)} g of CO2 (${((value * molarMass("CaCO3")) / molarMass("CO2")).toFixed(2)} g of calcite)`;
}
