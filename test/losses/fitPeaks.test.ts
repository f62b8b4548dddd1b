import { describe, expect, test } from "vitest";
import { evaluate } from "../../src/curve/functional.ts";
import { noiseOf } from "../../src/curve/noiseOf.ts";
import { toCurve } from "../../src/curve/toCurve.ts";
import type { Curve } from "../../src/curve/types.ts";
import { fitPeaks } from "../../src/losses/fitPeaks.ts";
import type { FittedPeak, PeakFitSpec, PeakRefusal } from "../../src/losses/fitTypes.ts";
import { fraserSuzuki } from "../../src/numerics/fraserSuzuki.ts";
import { placeReaction } from "../../src/simulate/placeReaction.ts";
import { simulateRun } from "../../src/simulate/simulateRun.ts";
import { makeRun } from "../makeRun.ts";
import { fitted, knownShapes, peakCurve, shareBelow, type TruePeak, truth } from "./peakRun.ts";
import { AREAS, pairCurve, pairSpec } from "./peakSeparation.ts";

function areas(curve: Curve, spec: PeakFitSpec): number[] {
  return fitted(fitPeaks(curve, spec)).map(({ area }) => area);
}

test("the share of a peak below a temperature, in closed form, is its integral", () => {
  for (const peak of truth(40)) {
    const f = fraserSuzuki(peak);
    let sum = 0;
    for (let T = -200; T < 110; T += 0.05) sum += (0.05 * (f(T) + 4 * f(T + 0.025) + f(T + 0.05))) / 6;
    expect(shareBelow(110, peak)).toBeCloseTo(sum, 9);
  }
});

describe("without noise", () => {
  test.for([80, 60, 45, 36, 27])("two peaks %d °C apart have their areas and positions to 1e-4", (separation) => {
    const [a, b] = fitted(fitPeaks(peakCurve(truth(separation)), pairSpec(separation))) as [FittedPeak, FittedPeak];
    expect(a.area / AREAS.a).toBeCloseTo(1, 4);
    expect(b.area / AREAS.b).toBeCloseTo(1, 4);
    expect(a.position).toBeCloseTo(120, 2);
    expect(b.position).toBeCloseTo(120 + separation, 2);
  });

  test.for([
    [0.5, 4],
    [0.5, 20],
    [1, 16],
    [2, 12],
  ] as const)("grid and smoothing do not matter: %d and %d °C", ([step_C, smoothing_C]) => {
    const [a, b] = areas(peakCurve(truth(40), { step_C, smoothing_C }), pairSpec(40)) as [number, number];
    expect(a / AREAS.a).toBeCloseTo(1, 3);
    expect(b / AREAS.b).toBeCloseTo(1, 3);
  });

  test("a range that ends where the run does is fitted with the end of the smoothing", () => {
    const spec = { ...pairSpec(60), from_C: 26, to_C: 399 };
    const [a, b] = areas(peakCurve(truth(60)), spec) as [number, number];
    expect(a / AREAS.a).toBeCloseTo(1, 4);
    expect(b / AREAS.b).toBeCloseTo(1, 4);
  });

  test("without a background no baseline is needed, and one of none is found", () => {
    const curve = peakCurve(truth(60), { background: 0 });
    const without = areas(curve, { ...pairSpec(60), baseline: "none" });
    for (const [i, area] of areas(curve, pairSpec(60)).entries()) expect(area / without[i]!).toBeCloseTo(1, 4);
  });

  test("a thermometer that shows 4 °C too much shifts the peaks and leaves the areas", () => {
    const right = fitted(fitPeaks(peakCurve(truth(45)), pairSpec(45)));
    const wrong = fitted(fitPeaks(peakCurve(truth(45), { offset: 4 }), pairSpec(45)));
    for (const [i, { area, position }] of wrong.entries()) {
      expect(area / right[i]!.area).toBeCloseTo(1, 4);
      expect(position - right[i]!.position).toBeCloseTo(4, 2);
    }
  });

  test("the order of the peaks does not matter, nor does the unit of mass", () => {
    const curve = peakCurve(truth(45));
    const spec = pairSpec(45);
    const forward = areas(curve, spec);
    const backward = areas(curve, { ...spec, peaks: spec.peaks.toReversed() });
    for (const [i, area] of backward.toReversed().entries()) expect(area / forward[i]!).toBeCloseTo(1, 8);
    const heavy = peakCurve(
      truth(45).map((peak) => ({ ...peak, area: 5 * peak.area })),
      { background: 0.003 },
    );
    for (const [i, area] of areas(heavy, spec).entries()) expect(area / forward[i]!).toBeCloseTo(5, 4);
  });

  test("three peaks are three", () => {
    const third: TruePeak = { area: 1.1, position: 270, width: 38, asymmetry: 0.1 };
    const spec = pairSpec(60);
    const peaks = [
      ...spec.peaks,
      { name: "c", position_C: [255, 285], width_C: 38, asymmetry: 0.1 },
    ] as typeof spec.peaks;
    const found = areas(peakCurve([...truth(60), third]), { ...spec, peaks, to_C: 350 });
    for (const [i, area] of [AREAS.a, AREAS.b, 1.1].entries()) expect(found[i]! / area).toBeCloseTo(1, 4);
  });
});

describe("the uncertainty", () => {
  test("by noise is that of the area's weights on the readings; the weights give the area", () => {
    const curve = peakCurve(truth(45), { noise: 0.002, correlation: 0.4, seed: "weights" });
    for (const { area, weights, terms, u } of fitted(fitPeaks(curve, pairSpec(45)))) {
      expect(evaluate(curve, weights)).toBeCloseTo(area, 9);
      expect(terms[0]).toMatchObject({ cause: "noise", key: "noise:run" });
      expect(noiseOf(curve, weights) / terms[0]!.effect).toBeCloseTo(1, 9);
      expect(Math.hypot(...terms.map(({ effect }) => effect))).toBeCloseTo(u, 12);
    }
  });

  test("has the effect of a wrong width with its sign", () => {
    const spec = { ...pairSpec(36), width_u_pct: 0.5 };
    const [a, b] = fitted(fitPeaks(peakCurve(truth(36)), spec)) as [FittedPeak, FittedPeak];
    const [first, second] = truth(36);
    const wider = areas(peakCurve([{ ...first, width: first.width * 1.005 }, second]), spec) as [number, number];
    const effectOn = ({ terms }: FittedPeak) => terms.find(({ cause }) => cause === "width of a")!.effect;
    expect(effectOn(a) / (wider[0] - a.area)).toBeCloseTo(1, 1);
    expect(effectOn(b) / (wider[1] - b.area)).toBeCloseTo(1, 1);
    expect(Math.sign(effectOn(a))).toBe(-Math.sign(effectOn(b)));
  });
});

describe("peaks of the forward model", () => {
  test.for([80, 60, 45, 36, 30])("%d °C apart have their areas within twice the stated uncertainty", (separation) => {
    const peaks = fitted(fitPeaks(pairCurve(separation, "first order"), pairSpec(separation)));
    for (const { name, area, u } of peaks) {
      expect(Math.abs(area - AREAS[name as "a" | "b"])).toBeLessThan(2 * u);
      expect(Math.abs(area / AREAS[name as "a" | "b"] - 1)).toBeLessThan(0.02);
    }
  });
});

describe("the check of a fit", () => {
  const checkOf = (curve: Curve, spec: PeakFitSpec) => {
    const { check } = fitPeaks(curve, spec);
    if (check === null) throw new Error("there is a fit");
    return check;
  };
  /** DTG of the grid points from 50 to 300 °C. */
  const inside = (curve: Curve) => curve.dtg.filter((_, k) => Math.abs(curve.temperature[k]! - 175) < 125.1);
  const rms = (values: Float64Array) =>
    Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);

  test("noise alone leaves what noise is expected to leave, without structure", () => {
    for (const seed of ["1", "2", "3"]) {
      const check = checkOf(peakCurve(truth(60), { noise: 0.001, seed }), pairSpec(60));
      // The range has some twenty-five values that share no reading: their scatter is known to ± 14 %.
      expect(check.residualDeviation / check.expectedDeviation).toBeGreaterThan(0.6);
      expect(check.residualDeviation / check.expectedDeviation).toBeLessThan(1.4);
      expect(check.misfitPct).toBe(0);
      // In standard deviations of a normal distribution.
      expect(Math.abs(check.runs!)).toBeLessThan(3);
      expect(check.condition).toBeGreaterThan(1);
    }
  });

  test("a ripple that no peak follows is the misfit, in % of the highest DTG of the peaks", () => {
    // Amplitude e and period 60 °C: root mean square e/√2. Areas, positions and baseline follow a little of it.
    const e = 4e-4;
    const plain = peakCurve(truth(60), { background: 0 });
    const rows = plain.run.temperature;
    const rippled = plain.run.mass.map(
      (mass, i) => mass + ((e * 60) / (2 * Math.PI)) * Math.cos((rows[i]! * Math.PI) / 30),
    );
    const curve = toCurve(makeRun(rows, rippled, { time: plain.run.time }), plain.options);
    const highest = Math.max(...inside(plain));
    const check = checkOf(curve, { ...pairSpec(60), limits: { misfit_pct: 50 } });
    expect(check.misfitPct / ((100 * e) / Math.SQRT2 / highest)).toBeGreaterThan(0.6);
    expect(check.misfitPct / ((100 * e) / Math.SQRT2 / highest)).toBeLessThan(1);
    expect(check.residualDeviation / (e / Math.SQRT2)).toBeGreaterThan(0.6);
    expect(check.residualDeviation / (e / Math.SQRT2)).toBeLessThan(1);
    // Residuals of one sign for 30 °C: fewer changes than chance gives.
    expect(check.runs!).toBeLessThan(0);
  });

  test("neighbours are those on the temperature axis, whatever order they are named in", () => {
    const third: TruePeak = { area: 1.1, position: 270, width: 38, asymmetry: 0.1 };
    const [a, b] = pairSpec(60).peaks as [PeakFitSpec["peaks"][0], PeakFitSpec["peaks"][0]];
    const c = { name: "c", position_C: [255, 285] as [number, number], width_C: 38, asymmetry: 0.1 };
    const curve = peakCurve([...truth(60), third]);
    for (const peaks of [
      [a, b, c],
      [c, a, b],
      [b, c, a],
    ]) {
      const { merged } = checkOf(curve, { ...pairSpec(60), peaks, to_C: 350 });
      expect(merged.map(({ names }) => names)).toEqual([
        ["a", "b"],
        ["b", "c"],
      ]);
    }
  });

  test("what one peak in place of two leaves is held against the noise and the smaller of the two", () => {
    const curve = peakCurve(truth(45), { noise: 0.001 });
    const fit = fitPeaks(curve, pairSpec(45));
    const { merged, residualDeviation, expectedDeviation } = fit.check!;
    const [small] = [fitted(fit)[1]!];
    const alone = { ...truth(45)[1], area: small.area, position: small.position };
    const size = rms(inside(peakCurve([alone], { background: 0 })));
    const left = merged[0]!.timesResidual * residualDeviation;
    expect(left).toBeGreaterThan(expectedDeviation);
    const beyond = Math.sqrt(left ** 2 - expectedDeviation ** 2);
    expect(merged[0]!.unexplainedPct / ((100 * beyond) / size)).toBeCloseTo(1, 2);
  });
});

describe("it is refused", () => {
  const reasonOf = (curve: Curve, spec: PeakFitSpec): [PeakRefusal, string] => {
    const fit = fitPeaks(curve, spec);
    if (fit.verdict === "fitted") throw new Error(`fitted: ${fit.peaks.map(({ area }) => area).join(", ")}`);
    return [fit.reason, fit.message];
  };

  test("where the run does not cover the range", () => {
    expect(reasonOf(peakCurve(truth(60)), { ...pairSpec(60), to_C: 500 })).toEqual([
      "window-truncated",
      "The fit needs 50–500 °C; the heating goes from 25.0 to 400.0 °C.",
    ]);
  });

  test("across an isothermal", () => {
    const run = simulateRun(
      {
        sample_mg: 40,
        reactions: [placeReaction({ loss_pct: 8, peak_C: 125, width_C: 34 })],
        programme: {
          start_C: 25,
          segments: [
            { to_C: 150, rate_K_per_min: 10, hold_min: 20 },
            { to_C: 400, rate_K_per_min: 10 },
          ],
        },
      },
      { rows: 3000 },
    );
    const curve = toCurve(makeRun(run.temperature_C, run.mass_mg, { time: run.time_s }), {
      grid: { step_C: 0.5 },
      smoothing: { width_C: 10, degree: 3 },
    });
    expect(reasonOf(curve, pairSpec(60))).toEqual([
      "isothermal-in-window",
      "An isothermal stands between 50 and 300 °C: the DTG is not one curve.",
    ]);
  });

  test("where one of the peaks is not there", () => {
    const [only] = truth(60);
    const [reason, message] = reasonOf(peakCurve([only], { noise: 0.001 }), pairSpec(60));
    expect(reason).toBe("peak-absent");
    expect(message).toMatch(/^The area of b is \S+ ± \S+: beside the others it cannot be told from nothing\.$/);
  });

  test("where a peak is not where it may be", () => {
    const [reason, message] = reasonOf(peakCurve(truth(85), { noise: 0.001 }), pairSpec(60));
    expect(reason).toBe("position-outside");
    expect(message).toMatch(/^The peak b would stand at 205\.\d °C, outside 165–195 °C\.$/);
  });

  test("where a third peak stands between two", () => {
    const hidden: TruePeak = { area: 0.6, position: 165, width: 25, asymmetry: -0.31 };
    const [reason, message] = reasonOf(peakCurve([...truth(100), hidden], { noise: 0.001 }), pairSpec(100));
    expect(reason).toBe("residual-structure");
    expect(message).toMatch(/^The DTG departs from the sum of the peaks by \S+ % of the highest one/);
    const { check } = fitPeaks(peakCurve([...truth(100), hidden], { noise: 0.001 }), pairSpec(100));
    const shown = check!.misfitPct.toPrecision(3);
    expect(message).toBe(
      `The DTG departs from the sum of the peaks by ${shown} % of the highest one (limit 2 %): a peak is missing, or a shape is wrong.`,
    );
  });

  test("where one peak in the place of two leaves no more than the fit does", () => {
    const spec = { ...pairSpec(60), limits: { merged_times: 1e6 } };
    const curve = peakCurve(truth(60), { noise: 0.001 });
    const { check } = fitPeaks(curve, spec);
    expect(reasonOf(curve, spec)).toEqual([
      "residual-structure",
      `The DTG departs from the sum of the peaks by ${check!.misfitPct.toPrecision(3)} % of the highest one; one peak in place of a and b leaves only ${check!.merged[0]!.timesResidual.toPrecision(3)} times as much (limit 1000000): a peak is missing, or a shape is wrong.`,
    ]);
  });

  test("where the assumed shapes leave an area open", () => {
    const spec = { ...pairSpec(24), width_u_pct: 10 };
    const [reason, message] = reasonOf(peakCurve(truth(24), { noise: 0.001 }), spec);
    expect(reason).toBe("area-uncertain");
    expect(message).toMatch(/^The area of b is uncertain by \S+ % \(limit 20 %\)/);
  });

  test("where one peak of another shape does as well", () => {
    const [reason, message] = reasonOf(peakCurve(truth(15), { noise: 0.001 }), pairSpec(15));
    expect(reason).toBe("one-peak-suffices");
    expect(message).toMatch(/^One peak in place of a and b describes the DTG about as well: it leaves \S+ % /);
  });

  test("where noise hides a peak", () => {
    const small = truth(60).map((peak, i) => (i === 1 ? { ...peak, area: 0.02 } : peak));
    const [reason, message] = reasonOf(peakCurve(small, { noise: 0.02 }), { ...pairSpec(60), ...knownShapes });
    expect([reason, message]).toEqual(["not-identifiable", "The run does not determine area and position of b."]);
  });

  test("on a line that nothing stands on, and where two peaks are the same one", () => {
    expect(fitPeaks(peakCurve([]), pairSpec(60)).verdict).toBe("refused");
    const spec = pairSpec(60);
    const twice = { ...spec, peaks: [spec.peaks[0]!, { ...spec.peaks[0]!, name: "again" }] };
    expect(fitPeaks(peakCurve(truth(60)), twice).verdict).toBe("refused");
  });
});

describe("a specification that cannot work is refused with its field", () => {
  const spec = pairSpec(60);
  const [first, second] = spec.peaks as [PeakFitSpec["peaks"][0], PeakFitSpec["peaks"][0]];

  test.for([
    [{ from_C: 300 }, "Peak fit: from_C must lie below to_C, not 300 and 300"],
    [{ peaks: [] }, "Peak fit: name at least one peak"],
    [{ peaks: [first, { ...second, name: "a" }] }, "Peak fit: two peaks have the name a"],
    [
      { peaks: [{ ...first, position_C: [130, 110] }] },
      "Peak a: position_C must rise and lie inside 50–300 °C, not 130 and 110",
    ],
    [{ peaks: [{ ...first, width_C: 0 }] }, "Peak a: width_C must be above 0 and below the range of the fit, not 0"],
    [{ peaks: [{ ...first, asymmetry: 3 }] }, "Peak a: asymmetry must lie between -2 and 2, not 3"],
    [{ width_u_pct: -1 }, "Peak fit: width_u_pct must be zero or more, not -1"],
    [{ limits: { area_u_pct: Number.NaN } }, "Peak fit: area_u_pct must be zero or more, not NaN"],
  ] as [Partial<PeakFitSpec>, string][])("%j", ([change, message]) => {
    expect(() => fitPeaks(peakCurve(truth(60)), { ...spec, ...change })).toThrow(new RangeError(message));
  });

  test("and a range without enough grid points", () => {
    const narrow = { ...spec, peaks: [{ ...first, position_C: [118, 122], width_C: 4 }] } as PeakFitSpec;
    expect(() =>
      fitPeaks(peakCurve(truth(60), { step_C: 5, smoothing_C: 40 }), { ...narrow, from_C: 110, to_C: 125 }),
    ).toThrow(new RangeError("Peak fit: 4 parameters need more than the 4 grid points of the range"));
  });
});

test("curve and specification are left as they were", () => {
  const curve = peakCurve(truth(60), { noise: 0.001 });
  const spec = pairSpec(60);
  const before = [curve.dtg.slice(), curve.mass.slice(), structuredClone(spec)];
  fitPeaks(curve, spec);
  expect([curve.dtg, curve.mass, spec]).toEqual(before);
});
