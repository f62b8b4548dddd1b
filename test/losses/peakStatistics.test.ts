import { beforeAll, describe, expect, test } from "vitest";
import { toCurve } from "../../src/curve/toCurve.ts";
import { fitPeaks } from "../../src/losses/fitPeaks.ts";
import type { FittedPeak } from "../../src/losses/fitTypes.ts";
import { seededRandom } from "../../src/numerics/seededRandom.ts";
import { standardDeviation } from "../../src/numerics/standardDeviation.ts";
import { placeReaction } from "../../src/simulate/placeReaction.ts";
import { simulateRun } from "../../src/simulate/simulateRun.ts";
import { makeRun } from "../makeRun.ts";
import { fitted, knownShapes, type PeakRunOptions, peakCurve, truth } from "./peakRun.ts";
import { pairSpec, peakSeparation, type SeparationRow, separationTable, worlds } from "./peakSeparation.ts";

// What only many fits show: seconds, where the tests of `fitPeaks.test.ts` take a tenth of one.
describe("the uncertainty over many runs", () => {
  const draws = Number(process.env.DRAWS ?? 140);
  // A coarse grid: it is the same problem in a quarter of the time.
  const curveOptions = { rows: 800, step_C: 2, smoothing_C: 12 };

  test.for([
    ["white noise", 70, { noise: 0.002 }],
    ["noise of correlation 0.6, overlapping peaks", 36, { noise: 0.002, correlation: 0.6 }],
    ["a coarse print", 50, { noise: 0.0005, resolution: 0.001 }],
  ] as [string, number, PeakRunOptions][])(
    "by %s is the scatter over seeded draws within 15 %",
    { timeout: 120_000 },
    ([name, separation, options]) => {
      const spec = { ...pairSpec(separation), ...knownShapes };
      const found: FittedPeak[][] = [];
      for (let draw = 0; draw < draws; draw++) {
        found.push(
          fitted(
            fitPeaks(peakCurve(truth(separation), { ...curveOptions, ...options, seed: `${name}/${draw}` }), spec),
          ),
        );
      }
      for (const i of [0, 1]) {
        const mean = (values: number[]) => values.reduce((sum, value) => sum + value / draws, 0);
        const scatter = standardDeviation(found.map((peaks) => peaks[i]!.area));
        const stated = mean(found.map((peaks) => peaks[i]!.terms[0]!.effect));
        expect(scatter / stated).toBeGreaterThan(0.85);
        expect(scatter / stated).toBeLessThan(1.15);
        const shift = standardDeviation(found.map((peaks) => peaks[i]!.position));
        expect(shift / mean(found.map((peaks) => peaks[i]!.positionU))).toBeGreaterThan(0.85);
        expect(shift / mean(found.map((peaks) => peaks[i]!.positionU))).toBeLessThan(1.15);
        // With shapes that are known noise is all there is, unless it now and then looks like misfit.
        const whole = found.map((peaks) => peaks[i]!.u).sort((a, b) => a - b)[draws >> 1]!;
        expect(whole / stated).toBeCloseTo(1, 1);
      }
    },
  );

  test("of shapes drawn as the protocol states them covers the true areas", { timeout: 120_000 }, () => {
    const held = [0, 0];
    const errors: [number[], number[]] = [[], []];
    const stated: [number[], number[]] = [[], []];
    let refused = 0;
    for (let draw = 0; draw < draws; draw++) {
      const random = seededRandom(`shapes/${draw}`);
      const drawn = truth(60).map((peak) => ({
        ...peak,
        width: peak.width * (1 + 0.05 * random.normal()),
        asymmetry: peak.asymmetry + 0.05 * random.normal(),
      }));
      const fit = fitPeaks(peakCurve(drawn, { ...curveOptions, noise: 0.001, seed: `${draw}` }), pairSpec(60));
      if (fit.verdict === "refused") {
        refused++;
        continue;
      }
      for (const [i, { area, u }] of fit.peaks.entries()) {
        errors[i as 0 | 1].push(area - drawn[i]!.area);
        stated[i as 0 | 1].push(u);
        if (Math.abs(area - drawn[i]!.area) <= 1.96 * u) held[i]!++;
      }
    }
    expect(refused).toBeLessThan(0.03 * draws);
    for (const i of [0, 1] as const) {
      const n = errors[i].length;
      const rms = (values: number[]) => Math.sqrt(values.reduce((sum, value) => sum + value ** 2, 0) / n);
      expect(held[i]! / n).toBeGreaterThan(0.92);
      // A shape that is far off shows in the residuals and is counted twice: a little too wide, not too narrow.
      expect(rms(errors[i]) / rms(stated[i])).toBeGreaterThan(0.75);
      expect(rms(errors[i]) / rms(stated[i])).toBeLessThan(1.15);
    }
  });
});

describe("bias against separation", () => {
  const separations = [80, 60, 50, 45, 40, 36, 33, 30, 27, 24, 21, 18, 15, 12, 8, 4];
  let rows: SeparationRow[];
  beforeAll(() => {
    rows = worlds.flatMap((world) => peakSeparation(world, separations));
  });

  test("stays within twice the stated uncertainty wherever there are areas", () => {
    // `TABLE=1 npx vitest run test/losses/peakStatistics` prints the table.
    if (process.env.TABLE) process.stdout.write(`${separationTable(rows)}\n`);
    for (const { world, separation_C, bias_pct, u_pct } of rows) {
      if (bias_pct === null || u_pct === null) continue;
      for (const name of ["a", "b"] as const) {
        expect(Math.abs(bias_pct[name]), `${world}, ${separation_C} °C, ${name}`).toBeLessThan(2 * u_pct[name]);
      }
    }
  });

  test.for(worlds)("of peaks %s ends in refusal, once and for all, before half a width", (world) => {
    const verdicts = rows.filter((row) => row.world === world);
    const begins = verdicts.findIndex(({ verdict }) => verdict !== "fitted");
    expect(begins).toBeGreaterThan(0);
    for (const { verdict } of verdicts.slice(begins)) expect(verdict).not.toBe("fitted");
    expect(verdicts[begins]!.widths).toBeGreaterThan(0.5);
    expect(verdicts[begins]!.widths).toBeLessThan(1.1);
  });
});

describe("a single peak is not split in two", () => {
  const cases = [1, 1.5, 2].flatMap((order) =>
    [28, 34, 44, 52].flatMap((width) => [15, 20, 30, 45].map((apart) => [order, width, apart] as const)),
  );

  test.for(cases)("order %d, %d °C wide, a second looked for %d °C above", ([order, width, apart]) => {
    const run = simulateRun(
      {
        sample_mg: 40,
        reactions: [placeReaction({ loss_pct: 8, peak_C: 125, width_C: width, order })],
        background: [{ from_C: 30, to_C: 400, loss_pct_per_C: 0.004 }],
        programme: { start_C: 25, segments: [{ to_C: 400, rate_K_per_min: 10 }] },
      },
      { rows: 1500, noise_ug: 1, seed: `${order} ${width}` },
    );
    const curve = toCurve(makeRun(run.temperature_C, run.mass_mg, { time: run.time_s }), {
      grid: { step_C: 1 },
      smoothing: { width_C: 10, degree: 3 },
    });
    const fit = fitPeaks(curve, pairSpec(apart));
    expect(fit.verdict).toBe("refused");
    expect(fit).not.toHaveProperty("peaks");
  });
});
