// How often a verdict is wrong, by simulation. All of it:
// npx esbuild test/bench/errorRates.ts --bundle --platform=node --format=esm --outfile=out/errorRates.js && node out/errorRates.js
// (or, without building: deno run test/bench/errorRates.ts). A slice of it is a test: test/numerics/errorRates.test.ts.
import { dunnettLambda } from "../../src/numerics/dunnettLambda.ts";
import { dunnettQuantile } from "../../src/numerics/dunnettQuantile.ts";
import { equivalence } from "../../src/numerics/equivalence.ts";
import { holm } from "../../src/numerics/holm.ts";
import { mean } from "../../src/numerics/mean.ts";
import { pooledDeviation } from "../../src/numerics/pooledDeviation.ts";
import { powerOfDifference } from "../../src/numerics/powerOfDifference.ts";
import { powerOfEquivalence } from "../../src/numerics/powerOfEquivalence.ts";
import { type SeededRandom, seededRandom } from "../../src/numerics/seededRandom.ts";
import { studentTest } from "../../src/numerics/studentTest.ts";

/** A share of simulated studies. */
export interface Rate {
  rate: number;
  /** Of the rate, from the number of studies. */
  standardError: number;
}

/** How much is simulated. */
export interface Simulation {
  /** @default 100000 */
  studies?: number;
  /** @default 1 */
  seed?: number | string;
}

/** Cells of a study: specimens of the reference first. Their scatter is one. */
export interface Design extends Simulation {
  /** Specimens per cell. @default [3, 3, 3, 3, 3] */
  sizes?: readonly number[];
}

/**
 * Families of comparisons with one reference where nothing differs: how often at least one is called a difference at 5 %,
 * after Holm, by Dunnett on two sides, by Dunnett on one side, and without any adjustment. One pooled deviation.
 */
export function familyErrors(design: Design = {}): Record<"holm" | "dunnett" | "dunnettOneSided" | "unadjusted", Rate> {
  const { sizes = [3, 3, 3, 3, 3], studies = 100_000, seed = 1 } = design;
  const random = seededRandom(`${seed}/family`);
  const [n0, ...others] = sizes;
  const df = sizes.reduce((sum, size) => sum + size - 1, 0);
  const lambda = dunnettLambda(others, n0!);
  const twoSided = dunnettQuantile(0.05, { lambda, df });
  const oneSided = dunnettQuantile(0.05, { lambda, df, sides: "one-sided" });
  const counts = { holm: 0, dunnett: 0, dunnettOneSided: 0, unadjusted: 0 };
  for (let study = 0; study < studies; study++) {
    const cells = sizes.map((size) => specimens(random, size));
    const { deviation } = pooledDeviation(cells)!;
    const reference = mean(cells[0]!);
    const tests = cells.slice(1).map((cell) => {
      const se = deviation * Math.sqrt(1 / cell.length + 1 / n0!);
      const test = studentTest(mean(cell) - reference, { se, df });
      if ("missing" in test) throw new Error("Normal values always scatter");
      return test;
    });
    if (holm(tests.map(({ p }) => p)).some((p) => p <= 0.05)) counts.holm++;
    if (tests.some(({ t }) => Math.abs(t) > twoSided)) counts.dunnett++;
    if (tests.some(({ t }) => t > oneSided)) counts.dunnettOneSided++;
    if (tests.some(({ p }) => p <= 0.05)) counts.unadjusted++;
  }
  return {
    holm: rateOf(counts.holm, studies),
    dunnett: rateOf(counts.dunnett, studies),
    dunnettOneSided: rateOf(counts.dunnettOneSided, studies),
    unadjusted: rateOf(counts.unadjusted, studies),
  };
}

/** A comparison of two cells out of several whose scatter is pooled. */
export interface Comparison extends Simulation {
  /** Specimens of each of the two cells. @default 3 */
  n?: number;
  /** Cells of n specimens whose scatter is pooled, the two included. @default 2 */
  cells?: number;
  /** True difference, in standard deviations of a specimen. */
  difference: number;
  /** Margin of equivalence, in the same unit. */
  margin: number;
}

/** Simulated and predicted shares of studies that call a difference, and that call it within the margin. */
export interface Verdicts {
  difference: Rate & { predicted: number };
  within: Rate & { predicted: number };
  /** The difference called to lie outside the margin; below 5 % as long as the truth does not. */
  outside: Rate;
}

/**
 * Studies with a known difference: how often it is found, and how often it is shown to lie within or outside the margin,
 * beside what {@link powerOfDifference} and {@link powerOfEquivalence} predict. With the difference at the margin, `within`
 * is the rate of false claims of equivalence; with none, `difference` that of false differences.
 */
export function verdicts(comparison: Comparison): Verdicts {
  const { n = 3, cells = 2, difference, margin, studies = 100_000, seed = 1 } = comparison;
  const random = seededRandom(`${seed}/verdicts`);
  const df = cells * (n - 1);
  const counts = { difference: 0, within: 0, outside: 0 };
  for (let study = 0; study < studies; study++) {
    const groups = Array.from({ length: cells }, () => specimens(random, n));
    const se = pooledDeviation(groups)!.deviation * Math.sqrt(2 / n);
    const estimate = difference + mean(groups[0]!) - mean(groups[1]!);
    const test = studentTest(estimate, { se, df });
    const equal = equivalence(estimate, { se, df, margin });
    if ("missing" in test || "missing" in equal) throw new Error("Normal values always scatter");
    if (test.p <= 0.05) counts.difference++;
    if (equal.verdict === "within") counts.within++;
    if (equal.verdict === "outside") counts.outside++;
  }
  const se = Math.sqrt(2 / n);
  return {
    difference: { ...rateOf(counts.difference, studies), predicted: powerOfDifference(difference, { se, df }) },
    within: { ...rateOf(counts.within, studies), predicted: powerOfEquivalence(margin, { se, df, difference }) },
    outside: rateOf(counts.outside, studies),
  };
}

function specimens(random: SeededRandom, size: number): number[] {
  return Array.from({ length: size }, () => random.normal());
}

function rateOf(count: number, studies: number): Rate {
  const rate = count / studies;
  return { rate, standardError: Math.sqrt((rate * (1 - rate)) / studies) };
}

/** Every rate as a line of text. */
function errorRates(simulation: Simulation): string[] {
  const line = (what: string, { rate, standardError, predicted }: Rate & { predicted?: number }) =>
    `${what.padEnd(58)}${(100 * rate).toFixed(2).padStart(7)} ± ${(100 * standardError).toFixed(2)} %${
      predicted === undefined ? "" : `   predicted ${(100 * predicted).toFixed(2)} %`
    }`;
  const families = [[3, 3, 3, 3, 3], [6, 3, 3, 2, 3], [2, 2, 2], new Array<number>(9).fill(3)].flatMap((sizes) => {
    const found = familyErrors({ ...simulation, sizes });
    return Object.entries(found).map(([method, rate]) =>
      line(`no difference, cells of ${sizes.join(", ")}: ${method}`, rate),
    );
  });
  const compared = [
    { n: 3, cells: 2, difference: 0, margin: 3 },
    { n: 3, cells: 8, difference: 0, margin: 3 },
    { n: 3, cells: 8, difference: 2, margin: 2 },
    { n: 6, cells: 2, difference: 2, margin: 2 },
    { n: 6, cells: 2, difference: 0, margin: 2 },
    { n: 3, cells: 8, difference: 2.5, margin: 1 },
  ].flatMap((comparison) => {
    const { difference, within, outside } = verdicts({ ...simulation, ...comparison });
    const { n, cells, difference: truth, margin } = comparison;
    const what = `n ${n}, ${cells} cells, truth ${truth}, margin ${margin}`;
    return [
      line(`${what}: difference`, difference),
      line(`${what}: within`, within),
      line(`${what}: outside`, outside),
    ];
  });
  return [...families, ...compared];
}

if (/errorRates\.[jt]s$/.test(globalThis.process?.argv[1] ?? "")) console.log(errorRates({}).join("\n"));
