import { describe, expect, test } from "vitest";
import { evaluate } from "../../src/curve/functional.ts";
import { massAt } from "../../src/curve/massAt.ts";
import { toCurve } from "../../src/curve/toCurve.ts";
import { losses } from "../../src/losses/losses.ts";
import type { LossProtocol, Window } from "../../src/losses/types.ts";
import { makeRun, ramp } from "../makeRun.ts";

const sigmoid = (T: number, at: number, width: number) => 1 / (1 + Math.exp((at - T) / width));
/** 30 mg; 3 mg about 120 °C, 2 mg about 280 °C on a background of 0.001 mg/°C. */
const tg = (T: number) => 30 - 3 * sigmoid(T, 120, 6) - 2 * sigmoid(T, 280, 6) - 0.001 * (T - 25);

const window = (name: string, from_C: number, to_C: number, more: Partial<Window> = {}): Window => ({
  name,
  from_C,
  to_C,
  rule: "step",
  ...more,
});

function protocol(windows: Window[]): LossProtocol {
  return {
    grid: { step_C: 0.5 },
    smoothing: { width_C: 10, degree: 3 },
    windows,
    ignition: { temperature_C: 950, half_width_C: 5, hold_min: 5, max_loss: 0.1, check_C: 50 },
    settled: { by: "fixed edges" },
  };
}

function measured(from: number, to: number, windows: Window[], mass = tg) {
  const { temperature, time } = ramp(from, to, { rows: Math.round((to - from) * 5), rate: 10 });
  const settled = protocol(windows);
  return losses(toCurve(makeRun(temperature, temperature.map(mass), { time }), settled), settled);
}

const value = (m: { value: number } | { missing: string }) => ("value" in m ? m.value : Number.NaN);

describe("the rules", () => {
  const measuredAll = () =>
    measured(25, 1000, [window("a", 60, 180), window("b", 220, 340), window("c", 400.2, 499.7)]);

  test("step is the difference of the masses at the exact edges", () => {
    const found = measuredAll();
    const [a, , c] = found.losses;
    expect(value(a!.step)).toBeCloseTo(tg(60) - tg(180), 4);
    expect(value(c!.step)).toBeCloseTo(0.0995, 6);
  });

  test("the first mass is the first reading, with a weight of one", () => {
    expect(measuredAll().initial).toEqual({
      value: tg(25),
      weights: { mass: { at: [], w: [] }, dtg: { at: [], w: [] }, readings: { at: [0], w: [1] } },
    });
  });

  test("area is the step without the straight background: 2 mg on 0.001 mg/°C leave 2 mg", () => {
    const found = measuredAll();
    const [, b] = found.losses;
    expect(value(b!.step)).toBeCloseTo(2.12, 3);
    // The flanks of a logistic peak of width 6 at ± 60 °C: s·ΔT with s = 2/6·e^−10 at both edges, 0.0018 mg.
    expect(value(b!.area)).toBeCloseTo(2 - (120 * 2 * Math.exp(-10)) / 6, 3);
  });

  test("a window with nothing but background has no area and no peak", () => {
    const found = measuredAll();
    const [, , c] = found.losses;
    expect(value(c!.area)).toBeCloseTo(0, 6);
    expect(c!.peak).toBeNull();
  });

  test("peaks stand where they are, between grid points too", () => {
    const found = measuredAll();
    expect(found.losses[0]!.peak?.temperature).toBeCloseTo(120, 1);
    const shifted = measured(25, 1000, [window("a", 60, 180)], (T) => 30 - 3 * sigmoid(T, 119.77, 6));
    expect(shifted.losses[0]!.peak?.temperature).toBeCloseTo(119.77, 1);
    // The logistic peak has the height 3/(4·6) = 0.125 mg/°C; smoothing over 10 °C lowers it by under 1 %.
    expect(shifted.losses[0]!.peak!.dtg / 0.125).toBeGreaterThan(0.99);
    expect(shifted.losses[0]!.peak!.dtg / 0.125).toBeLessThan(1);
  });

  test("losses of adjoining windows add up", () => {
    const parts = measured(25, 1000, [window("a", 50, 133.3), window("b", 133.3, 220), window("ab", 50, 220)]).losses;
    expect(value(parts[0]!.step) + value(parts[1]!.step)).toBeCloseTo(value(parts[2]!.step), 12);
  });

  test("the integral of the DTG over a window is its step, within 2e-5 of the step", () => {
    const { temperature, time } = ramp(25, 1000, { rows: 5000, rate: 10 });
    const settled = protocol([window("a", 50, 220), window("b", 220, 350), window("c", 50, 550)]);
    const curve = toCurve(makeRun(temperature, temperature.map(tg), { time }), settled);
    for (const {
      window: { from_C, to_C },
      step,
    } of losses(curve, settled).losses) {
      let integral = 0;
      for (let k = 1; k < curve.temperature.length; k++) {
        if (curve.temperature[k - 1]! < from_C || curve.temperature[k]! > to_C) continue;
        integral += 0.25 * (curve.dtg[k]! + curve.dtg[k - 1]!);
      }
      expect(Math.abs(integral / value(step) - 1)).toBeLessThan(2e-5);
    }
  });
});

describe("the ignited mass", () => {
  const quiet = [window("a", 60, 180)];

  test("is the mean of the curve over ± 5 °C", () => {
    const { ignited, flags } = measured(25, 1000, quiet, (T) => 30 - 0.00005 * T);
    expect(value(ignited)).toBeCloseTo(30 - 0.0475, 6);
    expect(flags).toEqual([]);
  });

  test("is one-sided where the run ends at the ignition temperature", () => {
    const { ignited } = measured(25, 950, quiet, (T) => 30 - 0.00005 * T);
    expect(value(ignited)).toBeCloseTo(30 - 0.00005 * 947.5, 4);
  });

  test("is missing where the run ends before, and that is said; the losses are there", () => {
    const { ignited, flags, losses } = measured(25, 600, quiet);
    expect(ignited).toEqual({ missing: "ends-before-ignition" });
    expect(flags.map((f) => f.sentence)).toEqual([
      "The heating ends at 600 °C, before the ignition temperature of 950 °C: there is no ignited mass.",
    ]);
    expect(value(losses[0]!.step)).toBeCloseTo(tg(60) - tg(180), 4);
  });

  test("is flagged where mass is still being lost: 0.004 mg/°C over 50 °C are 0.2 mg of 26.2", () => {
    const { flags } = measured(25, 1000, quiet, (T) => 30 - 0.004 * T);
    expect(flags.map((f) => f.sentence)).toEqual([
      "The last 50 °C before ignition ends still lose 0.76 g per 100 g of ignited mass.",
    ]);
  });

  test("comes from the last minute of a final isothermal of 5 min or more", () => {
    const up = ramp(25, 950, { rows: 4000, rate: 10 });
    const hold = Array.from({ length: 400 }, (_, i) => i * 1.5);
    const temperature = [...up.temperature, ...hold.map(() => 950)];
    const end = up.time.at(-1)!;
    const time = [...up.time, ...hold.map((t) => end + 1.5 + t)];
    const mass = [...up.temperature.map(tg), ...hold.map((t) => tg(950) - 0.2 * Math.min(t / 200, 1))];
    const settled = protocol(quiet);
    const { ignited, flags } = losses(toCurve(makeRun(temperature, mass, { time }), settled), settled);
    expect(value(ignited)).toBeCloseTo(tg(950) - 0.2, 6);
    expect(flags).toEqual([]);
  });

  test.for([
    [3, 1.5, 3],
    [2, 1.5, 2],
    [6, 1.5, 5],
    // Readings further apart than a minute.
    [3, 70, 3],
  ] as [number, number, number][])(
    "is flagged where the last 5 min lose too much, in a hold of %d min with a reading every %d s",
    ([minutes, every, hold_min]) => {
      const up = ramp(25, 950, { rows: 4000, rate: 10 });
      const end = up.time.at(-1)!;
      const hold = Array.from({ length: Math.ceil((minutes * 60) / every) }, (_, i) => (i + 1) * every);
      const time = [...up.time, ...hold.map((t) => end + t)];
      const temperature = [...up.temperature, ...hold.map(() => 950)];
      // 0.2 mg a minute in the last five minutes, of which the heating has the first where the hold is shorter.
      const last = time.at(-1)!;
      const masses = (rate: number) => time.map((t) => 22 - (rate * Math.max(t - (last - 300), 0)) / 60);
      const settled = protocol(quiet);
      const ignition = { ...settled.ignition, hold_min };
      const codes = (rate: number) => {
        const own = { ...settled, ignition };
        return losses(toCurve(makeRun(temperature, masses(rate), { time }), own), own).flags.map((f) => f.code);
      };
      // Four minutes lie between the two means: 0.8 mg of 21 are 3.8 g per 100 g; 0.004 mg are 0.02, below the limit of 0.1.
      expect(codes(0.2)).toEqual(["not-ignited"]);
      expect(codes(0.001)).toEqual([]);
    },
  );

  test("a run that burns away has no ignited mass", () => {
    const { ignited, flags } = measured(25, 1000, quiet, (T) => 30 * (1 - sigmoid(T, 400, 5)) - 0.01);
    expect(ignited).toEqual({ missing: "no-reference-mass" });
    expect(flags[0]!.code).toBe("no-reference-mass");
  });
});

describe("windows that the run does not carry", () => {
  test("have no loss and a flag with the figures", () => {
    const { losses } = measured(60, 1000, [window("early", 50, 220)]);
    expect(losses[0]!.step).toEqual({ missing: "window-truncated" });
    expect(losses[0]!.area).toEqual({ missing: "window-truncated" });
    expect(losses[0]!.flags.map((f) => f.sentence)).toEqual([
      "The window early (50–220 °C) is not covered: the heating goes from 60.0 to 1000.0 °C.",
    ]);
  });

  test("an anchor band cut by the start of the run is flagged under the rule area", () => {
    const cut = measured(48, 1000, [window("a", 50, 220, { rule: "area" })]).losses[0]!;
    expect(cut.flags.map((f) => f.sentence)).toEqual([
      "The anchor band of the window a is cut by an end of the heating.",
    ]);
    expect("value" in cut.area).toBe(true);
    expect(measured(48, 1000, [window("a", 50, 220)]).losses[0]!.flags).toEqual([]);
  });

  test("less than half an anchor band leaves no area", () => {
    const { temperature, time } = ramp(50, 1000, { rows: 2000, rate: 10 });
    const settled = protocol([window("a", 50, 220, { anchor_C: 1 }), window("b", 50, 220)]);
    const curve = toCurve(makeRun(temperature, temperature.map(tg), { time }), settled);
    const [a, b] = losses(curve, settled).losses;
    expect(a!.area).toEqual({ missing: "anchor-truncated" });
    expect(a!.flags.map((f) => f.code)).toEqual(["anchor-truncated"]);
    expect("value" in b!.area).toBe(true);
  });
});

describe("an isothermal", () => {
  const temperature: number[] = [];
  const time: number[] = [];
  const mass: number[] = [];
  for (let t = 0; t <= 480 + 900 + 5400; t += 1.5) {
    const T = t < 480 ? 25 + t / 6 : t < 1380 ? 105 : 105 + (t - 1380) / 6;
    time.push(t);
    temperature.push(T);
    mass.push(tg(T) - (t < 480 ? 0 : Math.min((t - 480) / 600, 1)));
  }
  const settled = protocol([window("from", 105, 220), window("to", 50, 105), window("over", 50, 220)]);
  const found = () => losses(toCurve(makeRun(temperature, mass, { time }), settled), settled).losses;

  test("a window that starts there takes the mass on leaving, one that ends there the mass on entering", () => {
    const [from, to] = found();
    expect(value(from!.step)).toBeCloseTo(tg(105) - tg(220), 2);
    expect(value(to!.step)).toBeCloseTo(tg(50) - tg(105), 2);
    expect(from!.flags).toEqual([]);
  });

  test("a window that contains it counts its loss and is flagged", () => {
    const [, , over] = found();
    expect(value(over!.step)).toBeCloseTo(tg(50) - tg(220) + 1, 3);
    expect(over!.flags.map((f) => f.sentence)).toEqual(["The isothermal at 105 °C stands inside the window over."]);
  });
});

describe("options that cannot work", () => {
  const { temperature, time } = ramp(25, 400, { rows: 1000, rate: 10 });
  const curve = toCurve(makeRun(temperature, temperature.map(tg), { time }), protocol([]));

  test("a protocol that is not settled is refused", () => {
    const { settled: _, ...open } = protocol([window("a", 50, 220)]);
    expect(() => losses(curve, open as LossProtocol)).toThrow(
      new TypeError(
        "Settle the protocol first: losses are taken under a settled protocol only (field `settled` is missing)",
      ),
    );
  });

  test.for([
    [window("a", 220, 50), "Window a: from_C must lie below to_C, not 220 and 50"],
    [window("a", 50, Number.NaN), "Window a: from_C must lie below to_C, not 50 and NaN"],
    [window("a", 50, 60, { anchor_C: 20 }), "Window a: anchor_C must be above 0 and no wider than the window, not 20"],
  ] as const)("%j is refused", ([wrong, message]) => {
    expect(() => losses(curve, protocol([wrong]))).toThrow(new RangeError(message));
  });

  test("measuring changes neither curve nor protocol", () => {
    const settled = protocol([window("a", 50, 220)]);
    const before = structuredClone({ settled, mass: curve.mass, dtg: curve.dtg });
    losses(curve, settled);
    expect({ settled, mass: curve.mass, dtg: curve.dtg }).toEqual(before);
    expect(evaluate(curve, massAt(curve, 200, "leaving")!)).toBeCloseTo(tg(200), 4);
  });
});
