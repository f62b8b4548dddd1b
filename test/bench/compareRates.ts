// How often a verdict of a whole comparison is wrong, by simulation: specimens that scatter in proportion, their scatter pooled and its
// model chosen as for a real campaign, families over four ages, sufficient curing. What the numerics alone do is in errorRates.ts.
// npx esbuild test/bench/compareRates.ts --bundle --platform=node --format=esm --outfile=out/compareRates.js && node out/compareRates.js
// A slice of it is a test: test/compare/errorRates.test.ts.
import { scatterOf } from "../../src/campaign/scatterOf.ts";
import { contrasts } from "../../src/compare/contrasts.ts";
import { sufficientCuring } from "../../src/compare/sufficientCuring.ts";
import type { ComparedCell } from "../../src/compare/types.ts";
import { powerOfDifference } from "../../src/numerics/powerOfDifference.ts";
import { seededRandom } from "../../src/numerics/seededRandom.ts";

/** Scatter of specimens, share of the value. */
const RELATIVE = 0.03;
const AGES = [1, 3, 7, 28];
/** Grown with age, as hydrates and strength do. */
const LEVEL: Record<number, number> = { 1: 28, 3: 33, 7: 35, 28: 38 };

/** How a simulated campaign is laid out. */
export interface Simulation {
  /** Campaigns. */
  count: number;
  seed: string;
  /** Specimens per cell. @default 3 */
  specimens?: number;
  /** Regimes besides the reference. @default 4 */
  regimes?: number;
  /** True value over the reference's, the same at every age. @default 1 */
  ratio?: number;
  /** Standard uncertainty of an error that all cells share in proportion to their value, of it. @default 0 */
  shared?: number;
}

/** One campaign: regimes at four ages, specimens that scatter in proportion, the scatter pooled as for indices. */
function campaign(
  { specimens = 3, regimes = 4, ratio = 1, shared = 0 }: Simulation,
  normal: () => number,
): ComparedCell[] {
  const common = shared * normal();
  const cells = AGES.flatMap((age_d) =>
    Array.from({ length: regimes + 1 }, (_, r) => {
      const mean = LEVEL[age_d]! * (r === 0 ? 1 : ratio);
      const values = Array.from({ length: specimens }, () => mean * (1 + common + RELATIVE * normal()));
      return { curing: r === 0 ? "reference" : `regime ${r}`, age_d, values };
    }),
  );
  const scatter = scatterOf(cells.map(({ values }) => values));
  return cells.map(({ curing, age_d, values }): ComparedCell => {
    const value = values.reduce((sum, one) => sum + one, 0) / values.length;
    return {
      ...{ mix: "M1", curing, curing_d: null, age_d, quantity: "index", kind: "index", unit: "g/100 g" },
      specimens: values.map((one, i) => ({ specimen: `${i}`, value: one })),
      ...{ value, scatter, flags: [] },
      shared: shared === 0 ? [] : [{ cause: "temperature", effect: shared * value, key: "temperature:B1" }],
    };
  });
}

const against = { reference: { curing: "reference" }, coarse: true } as const;

/** Share of campaigns without any difference in which at least one is claimed. */
export function familyErrors(adjustment: "holm" | "dunnett", simulation: Simulation): number {
  const { normal } = seededRandom(simulation.seed);
  let wrong = 0;
  for (let i = 0; i < simulation.count; i++) {
    const { rows } = contrasts(campaign(simulation, normal), { ...against, adjustment });
    if (rows.some(({ difference_verdict: verdict }) => verdict === "lower" || verdict === "higher")) wrong++;
  }
  return wrong / simulation.count;
}

/** Share of comparisons at the very edge of the margin that are claimed to lie within it; `side` of the edge. */
export function marginErrors(side: -1 | 1, simulation: Simulation & { margin: number }): number {
  const { margin, count } = simulation;
  const { normal } = seededRandom(simulation.seed);
  const margins = [{ quantity: null, kind: "share", size: margin, unit: null }] as const;
  let wrong = 0;
  for (let i = 0; i < count; i++) {
    const cells = campaign({ ...simulation, ratio: 1 + side * margin, regimes: 1 }, normal);
    const { rows } = contrasts(cells, { ...against, margins });
    if (rows.find(({ age_d }) => age_d === 28)!.equivalence_verdict === "within margin") wrong++;
  }
  return wrong / count;
}

/** Share of campaigns in which a duration is called sufficient that loses exactly the margin, or more. */
export function shortErrors(simulation: Simulation & { margin: number }): number {
  const { margin, count, specimens = 3 } = simulation;
  const { normal } = seededRandom(simulation.seed);
  // Two durations hold in truth; the third lies at the edge of the margin, the fourth beyond it.
  const truth: [number, number][] = [
    [14, 1],
    [7, 1],
    [3, 1 - margin],
    [1, 1 - 1.2 * margin],
  ];
  let wrong = 0;
  for (let i = 0; i < count; i++) {
    const values = truth.map(([, share]) =>
      Array.from({ length: specimens }, () => 40 * share * (1 + RELATIVE * normal())),
    );
    // Other cells of the campaign, whose scatter is pooled with these.
    const others = Array.from({ length: 4 }, () =>
      Array.from({ length: specimens }, () => 30 * (1 + RELATIVE * normal())),
    );
    const scatter = scatterOf([...values, ...others]);
    const cells = truth.map(
      ([curing_d], k): ComparedCell => ({
        ...{ mix: "M1", curing: "moist", curing_d, age_d: 28, quantity: "strength", kind: "property", unit: "MPa" },
        specimens: values[k]!.map((value, s) => ({ specimen: `${s}`, value })),
        value: values[k]!.reduce((sum, value) => sum + value, 0) / specimens,
        ...{ shared: [], scatter, flags: [] },
      }),
    );
    const margins = [{ quantity: null, kind: "share", size: margin, unit: null }] as const;
    const [row] = sufficientCuring(cells, { test_age_min: 28 * 1440, margins });
    if ((row!.sufficient_d ?? 14) < 7) wrong++;
  }
  return wrong / count;
}

/** Share of comparisons at 28 d whose difference is found, each by itself at 5 %. */
export function foundShare(simulation: Simulation): number {
  const { normal } = seededRandom(simulation.seed);
  let found = 0;
  for (let i = 0; i < simulation.count; i++) {
    const { rows } = contrasts(campaign({ ...simulation, regimes: 1 }, normal), against);
    if (rows.find(({ age_d }) => age_d === 28)!.p! <= 0.05) found++;
  }
  return found / simulation.count;
}

/** What `foundShare` is predicted from: two cells of the simulated campaign at 28 d. */
export function planned({ specimens = 3, ratio = 1 }: Partial<Simulation>): {
  difference: number;
  se: number;
  df: number;
} {
  const level = LEVEL[28]!;
  return {
    difference: level * (1 - ratio),
    se: level * RELATIVE * Math.sqrt((1 + ratio ** 2) / specimens),
    df: AGES.length * 2 * (specimens - 1),
  };
}

/** Every rate as a line of text. */
function compareRates(count: number): string[] {
  const line = (what: string, rate: number, predicted?: number) => {
    const error = 100 * Math.sqrt((rate * (1 - rate)) / count);
    const expected = predicted === undefined ? "" : `   predicted ${(100 * predicted).toFixed(2)} %`;
    return `${what.padEnd(70)}${(100 * rate).toFixed(2).padStart(7)} ± ${error.toFixed(2)} %${expected}`;
  };
  const power = (specimens: number, ratio: number) => {
    const { difference, se, df } = planned({ specimens, ratio });
    const found = foundShare({ count, seed: `power ${specimens}`, specimens, ratio });
    return line(
      `${specimens} specimens, ${100 * ratio} % of the reference: found`,
      found,
      powerOfDifference(difference, { se, df }),
    );
  };
  return [
    line("no difference, 16 comparisons: one claimed, Holm", familyErrors("holm", { count, seed: "holm" })),
    line("… with an error that all cells share", familyErrors("holm", { count, seed: "shared", shared: 0.05 })),
    line("no difference, 16 comparisons: one claimed, Dunnett", familyErrors("dunnett", { count, seed: "dunnett" })),
    line("at the lower edge of the margin: within", marginErrors(-1, { count, seed: "below", margin: 0.1 })),
    line("at the upper edge of the margin: within", marginErrors(1, { count, seed: "above", margin: 0.1 })),
    line(
      "… with an error that all cells share",
      marginErrors(-1, { count, seed: "common", margin: 0.1, shared: 0.05 }),
    ),
    line("sufficient curing too short", shortErrors({ count, seed: "short", margin: 0.1 })),
    power(3, 0.93),
    power(4, 0.95),
    power(6, 0.96),
  ];
}

if (/compareRates\.[jt]s$/.test(globalThis.process?.argv[1] ?? "")) console.log(compareRates(10_000).join("\n"));
