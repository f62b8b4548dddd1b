import { molarMass } from "../chemistry/molarMass.ts";
import type { Window } from "../losses/types.ts";
import { studentQuantile } from "../numerics/studentQuantile.ts";
import { phasePerGas } from "../phases/phasePerGas.ts";
import type { CellKey, RunResult } from "../protocol/types.ts";
import { ageWords } from "./ageWords.ts";
import type { AgeRow, ScatterRow } from "./types.ts";

/** Carbonate of one mix that rises. */
export interface Carbonation {
  mix: string | null;
  window: string;
  by: "age" | "regime";
  /** The largest rise with its figures, and how many more there are. */
  sentence: string;
  /** Cells of the higher end, which are taken for carbonated, all ages of their regime. */
  carbonated: CellKey[];
}

/** One comparison that was found significant. */
interface Rise {
  low: Cell;
  high: Cell;
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
 *
 * @param options `runs`: for the noise of their indices, which no scatter can be less than.
 */
export function findCarbonation(
  ages: readonly AgeRow[],
  options: { windows: readonly Window[]; scatter: readonly ScatterRow[]; runs: readonly RunResult[] },
): Carbonation[] {
  return options.windows.flatMap(({ name, amount }) => {
    if (amount === undefined || phasePerGas(amount).gas !== "CO2") return [];
    const df = options.scatter.find(({ window }) => window === name)?.df;
    if (df === undefined) return [];
    const noise = noiseIn(options.runs, name);
    const cells = ages.flatMap((row): Cell[] => {
      if (row.window !== name || "missing" in row.index || row.u_random === null) return [];
      // Scatter in proportion to the index vanishes with it; the noise of the balance does not.
      return [{ row, value: row.index.value, u: Math.max(row.u_random, noise / Math.sqrt(row.n_specimens)) }];
    });
    const series = groupBy(cells, ({ row: { mix, curing, curing_d } }) => [mix, curing, curing_d])
      .map((group) => group.filter(({ row }) => row.age_d !== null && row.age_d > 0))
      .filter((group) => new Set(group.map(({ row }) => row.age_d)).size > 1);
    const regimes = groupBy(cells, ({ row: { mix, age_d } }) => [mix, age_d]).filter((group) => group.length > 1);
    // Every pair of regimes can be the largest and the smallest, either way round.
    const tests = series.length + regimes.reduce((sum, { length: n }) => sum + n * (n - 1), 0);
    if (tests === 0) return [];
    const limit = studentQuantile(1 - ALPHA / tests, df);
    return [
      ...perMix(
        series.flatMap((group) => rising(group, limit) ?? []),
        { window: name, by: "age" },
      ),
      ...perMix(
        regimes.flatMap((group) => apart(group, limit) ?? []),
        { window: name, by: "regime" },
      ),
    ];
  });
}

/** One finding per mix: the largest rise, and the number of the others. */
function perMix(rises: readonly Rise[], { window, by }: Pick<Carbonation, "window" | "by">): Carbonation[] {
  const size = ({ low, high }: Rise) => high.value - low.value;
  const mixes = [...new Set(rises.map(({ low }) => low.row.mix))];
  return mixes.map((mix) => {
    const own = rises.filter(({ low }) => low.row.mix === mix).sort((a, b) => size(b) - size(a));
    const { low, high } = own[0]!;
    const more = own.length === 1 ? "" : `, and ${own.length - 1} more`;
    const sentence =
      by === "age"
        ? `Carbonate (window ${window}) rises with age in ${regimeOf(low.row)}: ${co2(low)} at ${ageWords(low.row.age_d)}, ${co2(high)} at ${ageWords(high.row.age_d)}${more}.`
        : `Carbonate (window ${window}) differs between regimes at ${ageWords(low.row.age_d)}: ${co2(low)} in ${regimeOf(low.row)}, ${co2(high)} in ${regimeOf(high.row)}${more}.`;
    return { mix, window, by, sentence, carbonated: own.map(({ high }) => high.row) };
  });
}

/** Noise of one index of the window, g per 100 g: root mean square over the runs. */
function noiseIn(runs: readonly RunResult[], name: string): number {
  const squares = runs.flatMap((run) => {
    const index = run.status === "failed" ? undefined : run.windows.find(({ window }) => window === name)?.index;
    if (index === undefined || "missing" in index) return [];
    return index.terms.filter(({ cause }) => cause === "noise").map(({ effect }) => effect * effect);
  });
  return squares.length === 0 ? 0 : Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / squares.length);
}

function groupBy(cells: readonly Cell[], key: (cell: Cell) => unknown[]): Cell[][] {
  const groups = new Map<string, Cell[]>();
  for (const cell of cells) {
    const name = JSON.stringify(key(cell));
    groups.set(name, [...(groups.get(name) ?? []), cell]);
  }
  return [...groups.values()];
}

function rising(group: readonly Cell[], limit: number): Rise | null {
  // Cells without any scatter weigh alike.
  const smallest = Math.min(...group.map(({ u }) => u).filter((u) => u > 0));
  const weights = group.map(({ u }) => (Number.isFinite(smallest) ? 1 / Math.max(u, smallest) ** 2 : 1));
  const x = group.map(({ row }) => Math.log(row.age_d!));
  const total = weights.reduce((sum, w) => sum + w, 0);
  const centre = weights.reduce((sum, w, i) => sum + w * x[i]!, 0) / total;
  const spread = weights.reduce((sum, w, i) => sum + w * (x[i]! - centre) ** 2, 0);
  const slope = weights.reduce((sum, w, i) => sum + w * (x[i]! - centre) * group[i]!.value, 0) / spread;
  const u = Number.isFinite(smallest) ? 1 / Math.sqrt(spread) : 0;
  if (slope <= limit * u) return null;
  const sorted = [...group].sort((a, b) => a.row.age_d! - b.row.age_d!);
  return { low: sorted[0]!, high: sorted.at(-1)! };
}

function apart(group: readonly Cell[], limit: number): Rise | null {
  const sorted = [...group].sort((a, b) => a.value - b.value);
  const [low, high] = [sorted[0]!, sorted.at(-1)!];
  return high.value - low.value <= limit * Math.hypot(low.u, high.u) ? null : { low, high };
}

function regimeOf({ mix, curing, curing_d }: AgeRow): string {
  const days = curing_d === null ? "" : ` for ${Number(curing_d.toPrecision(6))} d`;
  return [mix, `${curing ?? ""}${days}`.trim()].filter(Boolean).join(", ") || "the specimens";
}

function co2({ value }: Cell): string {
  // + 0: nothing has no sign.
  const shown = (mass: number) => (Math.round(100 * mass) / 100 + 0).toFixed(2);
  return `${shown(value)} g of CO2 (${shown((value * molarMass("CaCO3")) / molarMass("CO2"))} g of calcite)`;
}
