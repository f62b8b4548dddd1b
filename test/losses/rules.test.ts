import { describe, expect, test } from "vitest";
import { evaluate, type Functional } from "../../src/curve/functional.ts";
import { toCurve } from "../../src/curve/toCurve.ts";
import type { Curve } from "../../src/curve/types.ts";
import { areaOf } from "../../src/losses/areaOf.ts";
import { losses } from "../../src/losses/losses.ts";
import { stepOf } from "../../src/losses/stepOf.ts";
import { tangentOf } from "../../src/losses/tangentOf.ts";
import type { LossProtocol, Window } from "../../src/losses/types.ts";
import { weighLoss } from "../../src/losses/weighLoss.ts";
import { makeRun, ramp } from "../makeRun.ts";

// A cubic passes the cubic smoothing unchanged, so every rule has a closed form on it. v = (T − 25 °C)/100 °C, masses in mg.
const [A, B, C] = [1, 0.5, 0.2];
const v = (T: number) => (T - 25) / 100;
const cubic = (T: number) => 30 - A * v(T) - B * v(T) ** 2 - C * v(T) ** 3;
/**
 * Least-squares line through the cubic at n temperatures `step` °C apart about `middle`: the moments of n consecutive whole
 * numbers about their mean are (n² − 1)/12 and, the fourth over the second, (3n² − 7)/20.
 */
function line(middle: number, n: number, step = 0.5) {
  const x = v(middle);
  const s2 = (step / 100) ** 2;
  const slope = -(A + 2 * B * x + 3 * C * x * x) - (C * s2 * (3 * n * n - 7)) / 20;
  const height = cubic(middle) - ((B + 3 * C * x) * s2 * (n * n - 1)) / 12;
  return { slope, at: (T: number) => height + slope * v(T - middle + 25) };
}
const protocol = (windows: Window[] = []): LossProtocol => ({
  grid: { step_C: 0.5 },
  smoothing: { width_C: 10, degree: 3 },
  windows,
  ignition: { temperature_C: 950, half_width_C: 5, hold_min: 5, max_loss: 0.1, check_C: 50 },
  settled: { by: "fixed edges" },
});
function curveOf(from = 25, to = 400, tg = cubic): Curve {
  const { temperature, time } = ramp(from, to, { rows: (to - from) * 10, rate: 10 });
  return toCurve(makeRun(temperature, temperature.map(tg), { time }), protocol());
}
const window = (from_C: number, to_C: number, more: Partial<Window> = {}): Window => ({
  name: "w",
  from_C,
  to_C,
  rule: "area",
  ...more,
});
const shown = (curve: Curve, weights: Functional | null | { missing: string }): number | string =>
  weights === null ? "null" : "missing" in weights ? weights.missing : evaluate(curve, weights);

describe("the step", () => {
  test.for([
    [60, 200],
    [60.2, 199.7],
    [25, 400],
  ] as const)("from %d to %d °C is the difference of the masses there", ([from, to]) => {
    const curve = curveOf();
    expect(shown(curve, stepOf(curve, { from_C: from, to_C: to }))).toBeCloseTo(cubic(from) - cubic(to), 4);
  });

  test("outside the run is none, on either side", () => {
    const curve = curveOf(50, 300);
    expect(stepOf(curve, { from_C: 49, to_C: 200 })).toBeNull();
    expect(stepOf(curve, { from_C: 60, to_C: 301 })).toBeNull();
  });
});

describe("the baseline of an area", () => {
  const baseline = (from: number, to: number, [start, end]: [{ slope: number }, { slope: number }]) =>
    ((start.slope + end.slope) * v(to - from + 25)) / 2;

  test.for([
    [60, 200, undefined, 21],
    [60.2, 199.7, undefined, 21],
    [60, 200, 10, 21],
    [80, 200, 60, 121],
    [60, 200, 4, 9],
    [60, 200, 2, 5],
    [60, 200, 1, 3],
  ] as const)(
    "from %d to %d °C with bands of %d °C (%d points) is that of the lines over them",
    ([from, to, anchor_C, n]) => {
      const curve = curveOf();
      const found = areaOf(curve, window(from, to, anchor_C === undefined ? {} : { anchor_C }));
      expect(found.clipped).toBe(false);
      expect(shown(curve, found.baseline)).toBeCloseTo(baseline(from, to, [line(from, n), line(to, n)]), 5);
    },
  );

  test.for([
    // The band of 27 °C begins with the run, at 25 °C: four points below, ten above.
    [27, 200, 15, 28.5, 21, 200],
    [25, 200, 11, 27.5, 21, 200],
    [60, 398, 21, 60, 15, 396.5],
    [60, 400, 11, null, 11, 397.5],
  ] as const)(
    "from %d to %d °C, cut by an end of the run, is that of what is there",
    ([from, to, n1, at1, n2, at2]) => {
      const curve = curveOf();
      const found = areaOf(curve, window(from, to));
      expect(found.clipped).toBe(true);
      const start = at1 === null ? line(from, 21) : line(at1, n1);
      expect(shown(curve, found.baseline)).toBeCloseTo(baseline(from, to, [start, line(at2, n2)]), 4);
    },
  );

  test("is none where fewer than three points of a band are there, or half of it is not", () => {
    const curve = curveOf(50, 300);
    expect(areaOf(curve, window(50, 200, { anchor_C: 1 }))).toEqual({ baseline: null, clipped: true });
    expect(areaOf(curve, window(60, 300, { anchor_C: 1 }))).toEqual({ baseline: null, clipped: true });
    // 50, 50.5 and 51 °C are three.
    expect(areaOf(curve, window(50, 200, { anchor_C: 2 })).baseline).not.toBeNull();
    expect(areaOf(curve, window(49, 200))).toEqual({ baseline: null, clipped: true });
    expect(areaOf(curve, window(60, 301))).toEqual({ baseline: null, clipped: true });
  });
});

describe("the tangent", () => {
  test.for([
    // From 60 to 100 °C in half degrees are 81 points.
    [[60, 100], 81, 0.5, [150, 200], 101, 0.5, 130],
    [[60.1, 99.8], 80, 39.7 / 79, [150.2, 200], 101, 49.8 / 100, 90],
    // A range below two steps still has three points.
    [[100, 100.4], 3, 0.2, [150, 150.8], 3, 0.4, 120],
    [[25, 60], 71, 0.5, [380, 400], 41, 0.5, 300],
  ] as [[number, number], number, number, [number, number], number, number, number][])(
    "before %j (%d points), after %j, at the peak, is the distance of the two lines",
    ([before_C, n1, step1, after_C, n2, step2, peak]) => {
      const curve = curveOf();
      const [first, second] = [before_C, after_C].map(([a, b]) => (a + b) / 2) as [number, number];
      const distance = line(first, n1, step1).at(peak) - line(second, n2, step2).at(peak);
      expect(shown(curve, tangentOf(curve, { before_C, after_C }, peak))).toBeCloseTo(distance, 4);
    },
  );

  test("is none where a range is not covered, on either side", () => {
    const curve = curveOf(50, 300);
    expect(tangentOf(curve, { before_C: [45, 80], after_C: [200, 220] }, 120)).toBeNull();
    expect(tangentOf(curve, { before_C: [60, 80], after_C: [250, 301] }, 120)).toBeNull();
    expect(tangentOf(curve, { before_C: [60, 301], after_C: [250, 290] }, 120)).toBeNull();
    expect(tangentOf(curve, { before_C: [50, 80], after_C: [250, 300] }, 120)).not.toBeNull();
  });
});

describe("a loss under a thermometer that reads wrong", () => {
  const tangent = { before_C: [60, 80] as [number, number], after_C: [160, 200] as [number, number] };

  test.for([0, 5, -3.2])("by %d °C has its edges and ranges moved, not its peak", (shift) => {
    const curve = curveOf();
    const by = (rule: Window["rule"]) =>
      shown(curve, weighLoss(curve, window(80, 160, { tangent }), { rule, peak: 110, shift }));
    const [from, to] = [80 + shift, 160 + shift];
    const step = cubic(from) - cubic(to);
    expect(by("step")).toBeCloseTo(step, 5);
    expect(by("area")).toBeCloseTo(step + 0.4 * (line(from, 21).slope + line(to, 21).slope), 5);
    expect(by("tangent")).toBeCloseTo(line(70 + shift, 41).at(110) - line(180 + shift, 81).at(110), 4);
  });

  test("without a shift it is the same as with one of zero", () => {
    const curve = curveOf();
    const by = (shift: { shift?: number }) =>
      shown(curve, weighLoss(curve, window(80, 160), { rule: "area", peak: null, ...shift }));
    expect(by({})).toBe(by({ shift: 0 }));
  });

  test("that is not there says by its code why", () => {
    const curve = curveOf(50, 300);
    const by = (rule: Window["rule"], of: Window, peak: number | null = 120) => weighLoss(curve, of, { rule, peak });
    for (const rule of ["step", "area", "tangent"] as const) {
      expect(by(rule, window(40, 200, { tangent }))).toEqual({ missing: "window-truncated" });
    }
    expect(by("area", window(50, 200, { anchor_C: 1 }))).toEqual({ missing: "anchor-truncated" });
    expect(by("tangent", window(80, 160))).toEqual({ missing: "no-tangent-ranges" });
    expect(by("tangent", window(80, 160, { tangent }), null)).toEqual({ missing: "no-peak" });
    expect(by("tangent", window(80, 160, { tangent: { ...tangent, after_C: [290, 310] } }))).toEqual({
      missing: "tangent-truncated",
    });
    expect(by("step", window(80, 160))).not.toHaveProperty("missing");
  });
});

describe("flags of a window", () => {
  const codes = (curve: Curve, one: Window) => losses(curve, protocol([one])).losses[0]!.flags.map((f) => f.code);
  const step = (T: number) => 30 - 3 / (1 + Math.exp((120 - T) / 6));
  const tangent = { before_C: [50, 70] as [number, number], after_C: [170, 200] as [number, number] };

  test("a tangent without a peak, and one whose ranges the run does not cover", () => {
    const flags = (one: Window, curve = curveOf(25, 400, step)) =>
      losses(curve, protocol([one])).losses[0]!.flags.map(({ code, sentence, window: of }) => [code, sentence, of]);
    expect(flags(window(60, 180, { rule: "tangent", tangent }))).toEqual([]);
    expect(flags(window(250, 300, { rule: "tangent", tangent }))).toEqual([
      ["no-tangent", "The window w has no prominent DTG peak: there is no tangent.", "w"],
    ]);
    expect(flags(window(60, 180, { rule: "tangent", tangent: { ...tangent, after_C: [390, 410] } }))).toEqual([
      ["no-tangent", "The window w has a fitting range that the run does not cover: there is no tangent.", "w"],
    ]);
    // Under another rule nobody asked for a tangent.
    expect(flags(window(250, 300, { rule: "step", tangent }))).toEqual([]);
  });

  test("a window that is not covered has no peak, and no other flag than that", () => {
    const [loss] = losses(curveOf(70, 400, step), protocol([window(60, 180)])).losses;
    expect(loss!.peak).toBeNull();
    expect(loss!.flags.map(({ code, window: of }) => [code, of])).toEqual([["window-truncated", "w"]]);
  });

  test("a cut band matters to the rule area, and to others only where it leaves no area", () => {
    const curve = curveOf(58, 400, step);
    expect(codes(curve, window(60, 180))).toEqual(["anchor-truncated"]);
    expect(codes(curve, window(60, 180, { rule: "step" }))).toEqual([]);
    expect(codes(curve, window(70, 180))).toEqual([]);
    expect(codes(curve, window(58, 180, { rule: "step", anchor_C: 1 }))).toEqual(["anchor-truncated"]);
  });
});

describe("an isothermal at 105 °C", () => {
  function held(position: "inside" | "end"): Curve {
    const temperature: number[] = [];
    const time: number[] = [];
    for (let t = 0; t <= (position === "end" ? 1380 : 4000); t += 2) {
      time.push(t);
      temperature.push(t < 480 ? 25 + t / 6 : t < 1380 ? 105 : 105 + (t - 1380) / 6);
    }
    return toCurve(makeRun(temperature, temperature.map(cubic), { time }), protocol());
  }

  test.for([
    [103, 220, false],
    [102.5, 220, true],
    [50, 107, false],
    [50, 107.5, true],
    [50, 220, true],
    [120, 220, false],
    [50, 90, false],
  ] as const)("stands inside the window from %d to %d °C: %s", ([from, to, inside]) => {
    const [loss] = losses(held("inside"), protocol([window(from, to, { rule: "step" })])).losses;
    const isothermals = loss!.flags.filter(({ code }) => code === "isothermal-in-window");
    expect(isothermals.map(({ window: of }) => of)).toEqual(inside ? ["w"] : []);
  });

  test("at the end of the run is inside no window", () => {
    const [loss] = losses(held("end"), protocol([window(50, 100, { rule: "step" })])).losses;
    expect(loss!.flags).toEqual([]);
  });

  test("parts what a rule takes: a window that begins there takes the line after it, one that ends there that before", () => {
    // 0.01 mg/°C before, 1 mg while it is held, 0.002 mg/°C after.
    const temperature: number[] = [];
    const time: number[] = [];
    const mass: number[] = [];
    for (let t = 0; t <= 4000; t += 2) {
      const T = t < 480 ? 25 + t / 6 : t < 1380 ? 105 : 105 + (t - 1380) / 6;
      time.push(t);
      temperature.push(T);
      mass.push(
        30 - 0.01 * Math.min(T - 25, 80) - Math.min(Math.max(t - 480, 0) / 900, 1) - 0.002 * Math.max(T - 105, 0),
      );
    }
    const curve = toCurve(makeRun(temperature, mass, { time }), protocol());
    const after = window(105, 220);
    const before = window(50, 105);
    expect(shown(curve, stepOf(curve, after))).toBeCloseTo(0.23, 3);
    expect(shown(curve, areaOf(curve, after).baseline)).toBeCloseTo(-0.23, 3);
    expect(shown(curve, stepOf(curve, before))).toBeCloseTo(0.55, 2);
    expect(shown(curve, areaOf(curve, before).baseline)).toBeCloseTo(-0.55, 2);
    const ranges = { before_C: [105, 125] as [number, number], after_C: [200, 220] as [number, number] };
    expect(shown(curve, tangentOf(curve, ranges, 150))).toBeCloseTo(0, 3);
  });
});
