import { describe, expect, test } from "vitest";
import { addWeight, evaluate, functional } from "../../src/curve/functional.ts";
import { noiseOf } from "../../src/curve/noiseOf.ts";
import { toCurve } from "../../src/curve/toCurve.ts";
import type { Curve } from "../../src/curve/types.ts";
import type { Rule, Weighed, Window } from "../../src/losses/types.ts";
import { weighLoss } from "../../src/losses/weighLoss.ts";
import type { Measured, Term } from "../../src/measured.ts";
import { addTerms } from "../../src/phases/addTerms.ts";
import { amountBases } from "../../src/phases/amountBases.ts";
import { belowDetection } from "../../src/phases/belowDetection.ts";
import { combineIndices } from "../../src/phases/combineIndices.ts";
import { combineTerms } from "../../src/phases/combineTerms.ts";
import { defaultUncertainty } from "../../src/phases/defaultUncertainty.ts";
import { type BudgetContext, measureIndex } from "../../src/phases/measureIndex.ts";
import { noiseTerm } from "../../src/phases/noiseTerm.ts";
import { type Reference, referenceMass } from "../../src/phases/referenceMass.ts";
import { makeRun, ramp } from "../makeRun.ts";
import { makeMix } from "./makeMix.ts";

const term = (cause: string, effect: number, key = cause): Term => ({ cause, effect, key });

describe("budgets added by key", () => {
  test("effects of one key add with their factors and signs, under the cause that came first", () => {
    const first = [term("temperature", 3, "t"), term("noise", 1, "n:a")];
    const second = [term("warmth", 1, "t"), term("noise", 2, "n:b")];
    expect(
      addTerms([
        { terms: first, factor: 2 },
        { terms: second, factor: -1 },
      ]),
    ).toEqual([term("temperature", 5, "t"), term("noise", 2, "n:a"), term("noise", -2, "n:b")]);
    // 2·3 − 1 stands in what comes out, not in what went in.
    expect(first[0]).toEqual(term("temperature", 3, "t"));
  });

  test("nothing has no sign: a zero times a negative factor survives JSON", () => {
    const [only] = addTerms([{ terms: [term("sand", 0)], factor: -1 }]);
    expect(Object.is(only!.effect, 0)).toBe(true);
  });

  test("of none is none", () => {
    expect(addTerms([])).toEqual([]);
    expect(combineTerms([])).toBe(0);
  });
});

describe("an amount on other bases", () => {
  const amount: Measured = { value: 10, u: 0.5, terms: [term("noise", 0.5, "noise:a")] };
  const bases = (mix: Parameters<typeof makeMix>[0] | null, of: Measured = amount) =>
    Object.fromEntries(amountBases(of, mix === null ? null : makeMix(mix)).map((one) => [one.basis, one.amount]));

  test("has the budget of the mix: each error once, by its derivative", () => {
    const known = { sand_binder_ignited: 3, u_sand_binder_ignited: 0.06, loi_binder_pct: 4, u_loi_binder_pct: 0.5 };
    const found = bases({ ...known, w_b: 0.6, u_w_b: 0.02 });
    // 10·(1 + 3), 40·0.96, 38.4/1.6.
    expect(found["ignited-binder"]).toEqual({
      value: 40,
      u: expect.closeTo(Math.hypot(2, 0.6), 12),
      terms: [term("noise", 2, "noise:a"), term("sand", expect.closeTo(0.6, 12) as number, "mix:M:sand")],
    });
    expect(found.binder).toEqual({
      value: expect.closeTo(38.4, 12),
      u: expect.closeTo(Math.hypot(1.92, 0.576, 0.2), 12),
      terms: [
        term("noise", expect.closeTo(1.92, 12) as number, "noise:a"),
        term("sand", expect.closeTo(0.576, 12) as number, "mix:M:sand"),
        term("loss on ignition of the binder", expect.closeTo(-0.2, 12) as number, "mix:M:loi"),
      ],
    });
    // d(1/(1 + w))/dw = −1/(1 + w)²: 38.4·0.02/2.56 = 0.3.
    expect(found.paste).toEqual({
      value: expect.closeTo(24, 12),
      u: expect.closeTo(Math.hypot(1.2, 0.36, 0.125, 0.3), 12),
      terms: [
        term("noise", expect.closeTo(1.2, 12) as number, "noise:a"),
        term("sand", expect.closeTo(0.36, 12) as number, "mix:M:sand"),
        term("loss on ignition of the binder", expect.closeTo(-0.125, 12) as number, "mix:M:loi"),
        term("water-to-binder ratio", expect.closeTo(-0.3, 12) as number, "mix:M:w_b"),
      ],
    });
  });

  test("without errors of the mix keeps its own budget only", () => {
    const found = bases({ loi_binder_pct: 20, w_b: 1 });
    expect(Object.keys(found)).toEqual(["ignited", "binder", "paste"]);
    expect(found.paste).toEqual({ value: 4, u: expect.closeTo(0.2, 12), terms: [term("noise", 0.2, "noise:a")] });
  });

  test("of unknown uncertainty stays so", () => {
    expect(bases({ loi_binder_pct: 20 }, { value: 10, u: null, terms: [] }).binder).toEqual({
      ...{ value: 8, u: null, terms: [] },
    });
  });

  test("is missing by its own code before that of the mix", () => {
    const gone = { missing: "ends-before-ignition" };
    for (const mix of [null, {}, { loi_binder_pct: 4, w_b: 0.5 }]) {
      expect(bases(mix, gone)).toEqual({ ignited: gone, binder: gone, paste: gone });
    }
    expect(bases({ w_b: 0.5 })).toEqual({
      ignited: amount,
      binder: { missing: "no-binder-loss" },
      paste: { missing: "no-binder-loss" },
    });
    expect(bases({ loi_binder_pct: 0 }).paste).toEqual({ missing: "no-water-ratio" });
    expect(bases(null).paste).toEqual({ missing: "no-binder-loss" });
  });
});

describe("a number against its detection limit", () => {
  const of = { what: "ah3", window: "w" };
  // 3.29·0.1 = 0.329.
  const measured = (value: number): Measured => ({ value, u: 0.1, terms: [term("noise", 0.1)] });

  test("is flagged up to it, with both", () => {
    expect(belowDetection(measured(0.3), of)).toMatchObject([
      {
        code: "below-detection",
        window: "w",
        sentence: "ah3: 0.300 g per 100 g is not above the detection limit of 0.329.",
      },
    ]);
    expect(belowDetection(measured(3.29 * 0.1), of).length).toBe(1);
    expect(belowDetection(measured(0.33), of)).toEqual([]);
    expect(belowDetection(measured(-1), of).length).toBe(1);
  });

  test("is not where it is missing, or nothing tells the limit", () => {
    expect(belowDetection({ missing: "no-peak" }, of)).toEqual([]);
    expect(belowDetection({ value: 0, u: 1, terms: [term("ignition", 1)] }, of)).toEqual([]);
  });
});

// A cubic passes the cubic smoothing unchanged: masses and losses have a closed form. mg; v = (T − 25 °C)/100 °C.
const v = (T: number) => (T - 25) / 100;
const cubic = (T: number) => 30 - v(T) - 0.5 * v(T) ** 2 - 0.2 * v(T) ** 3;
const quietCurve = (more: { from?: number; to?: number; massUnit?: "mg" | "%"; resolution?: number } = {}): Curve => {
  const { from = 25, to = 400, massUnit = "mg", resolution = 0 } = more;
  const { temperature, time } = ramp(from, to, { rows: (to - from) * 10, rate: 10 });
  const curve = toCurve(makeRun(temperature, temperature.map(cubic), { time, massUnit, resolution }), {
    grid: { step_C: 0.5 },
    smoothing: { width_C: 10, degree: 3 },
  });
  return { ...curve, noise: { ...curve.noise, sd: 0 } };
};
const contextOf = (curve: Curve, more: Partial<BudgetContext> = {}): BudgetContext => ({
  curve,
  uncertainty: { ...defaultUncertainty, temperature_u_C: 0, buoyancy_u_mg: 0 },
  file: "a.txt",
  balance: null,
  blank: null,
  ...more,
});
const window = (from_C: number, to_C: number, rule: Rule = "step"): Window => ({ name: "w", from_C, to_C, rule });
const weighed = (curve: Curve, of: Window, peak: number | null = null): Weighed => {
  const weights = weighLoss(curve, of, { rule: of.rule, peak });
  return "missing" in weights ? weights : { weights, value: evaluate(curve, weights) };
};
const twenty: Reference = { value: 20, weights: null, terms: [] };
const budget = (context: BudgetContext, of: Window, more: { reference?: Reference; bracket?: number } = {}) => {
  const { reference = twenty, bracket = null } = more;
  const input = { window: of, rule: of.rule, loss: weighed(context.curve, of), peak: null, reference, bracket };
  const found = measureIndex(context, input);
  if ("missing" in found) throw new Error(found.missing);
  const effects = Object.fromEntries(found.terms.map(({ cause, effect }) => [cause, effect]));
  const keys = Object.fromEntries(found.terms.map(({ cause, key }) => [cause, key]));
  return { ...found, effects, keys };
};
const loss = (from: number, to: number) => cubic(from) - cubic(to);

describe("the temperature of an index", () => {
  const context = (curve: Curve, u: number, balance: string | null = null) =>
    contextOf(curve, { balance, uncertainty: { ...contextOf(curve).uncertainty, temperature_u_C: u } });

  test("is the odd and the even part of a shift of both edges by u", () => {
    const { value, effects, keys } = budget(context(quietCurve(), 5, "B1"), window(60, 200));
    expect(value).toBeCloseTo(5 * loss(60, 200), 4);
    const [up, down, here] = [loss(65, 205), loss(55, 195), loss(60, 200)];
    expect(effects.temperature).toBeCloseTo((5 * (up - down)) / 2, 3);
    expect(effects["temperature, curvature"]).toBeCloseTo(5 * Math.sqrt(5) * ((up + down) / 2 - here), 3);
    expect(keys).toMatchObject({
      temperature: "temperature:B1",
      "temperature, curvature": "temperature:B1, squared",
    });
  });

  test("is one-sided where the run ends within the shift: the side that is there stands for both", () => {
    const here = loss(60, 200);
    const start = budget(context(quietCurve({ from: 57 }), 5), window(60, 200));
    expect(start.effects.temperature).toBeCloseTo(5 * (loss(65, 205) - here), 3);
    const end = budget(context(quietCurve({ to: 203 }), 5), window(60, 200));
    expect(end.effects.temperature).toBeCloseTo(5 * (here - loss(55, 195)), 3);
    for (const { effects, keys } of [start, end]) {
      expect(Object.keys(effects)).toEqual(["noise", "temperature", "buoyancy"]);
      expect(keys.temperature).toBe("temperature:the balance");
    }
    expect(budget(context(quietCurve({ from: 57, to: 203 }), 5), window(60, 200)).effects.temperature).toBe(0);
  });

  test("is no term where it is known, and none of what is not there", () => {
    expect(Object.keys(budget(context(quietCurve(), 0), window(60, 200)).effects)).toEqual(["noise", "buoyancy"]);
    const curve = quietCurve();
    const input = { window: window(60, 500), rule: "step" as const, peak: null, bracket: null };
    expect(measureIndex(context(curve, 5), { ...input, loss: { missing: "gone" }, reference: twenty })).toEqual({
      missing: "gone",
    });
    expect(
      measureIndex(context(curve, 5), {
        ...{ ...input, loss: weighed(curve, window(60, 200)) },
        reference: { missing: "no-binder-loss" },
      }),
    ).toEqual({ missing: "no-binder-loss" });
  });

  test("counts beyond the noise only: its square less the variance, and none within it", () => {
    const quiet = quietCurve();
    // Odd part, its noise at 1 mg per reading, so that any noise follows in proportion.
    const odd = loss(65, 205) - loss(55, 195);
    const loud = (sd: number): Curve => ({ ...quiet, noise: { ...quiet.noise, sd, lagOne: 0 } });
    const whole = functional();
    for (const [T, w] of [
      [65, 0.5],
      [205, -0.5],
      [55, -0.5],
      [195, 0.5],
    ] as const) {
      addWeight(whole.mass, quiet.temperature.indexOf(T), w);
    }
    const unit = noiseOf(loud(1), whole);
    for (const share of [0.3, 0.8, 0.99]) {
      const { effects } = budget(context(loud((share * Math.abs(odd / 2)) / unit), 5), window(60, 200));
      expect(effects.temperature! / (5 * (odd / 2) * Math.sqrt(1 - share ** 2))).toBeCloseTo(1, 2);
    }
    expect(budget(context(loud((1.01 * Math.abs(odd / 2)) / unit), 5), window(60, 200)).effects.temperature).toBe(0);
    const even = (loss(65, 205) + loss(55, 195)) / 2 - loss(60, 200);
    const curved = functional();
    for (const [T, w] of [
      [65, 0.5],
      [205, -0.5],
      [55, 0.5],
      [195, -0.5],
      [60, -1],
      [200, 1],
    ] as const) {
      addWeight(curved.mass, quiet.temperature.indexOf(T), w);
    }
    const second = noiseOf(loud(1), curved);
    // The even part must stand out by two standard deviations.
    const at = (times: number) =>
      budget(context(loud(Math.abs(even) / (times * second)), 5), window(60, 200)).effects["temperature, curvature"];
    expect(at(1.9)).toBe(0);
    expect(at(2.1)! / (5 * Math.sqrt(5) * even * Math.sqrt(1 - 1 / 2.1 ** 2))).toBeCloseTo(1, 1);
  });
});

describe("the buoyancy of an index", () => {
  // The lift of cold gas goes by 1 − T₀/T; T in K.
  const shape = (T: number) => 1 - 298.15 / (T + 273.15);
  const context = (curve: Curve, more: Partial<BudgetContext> = {}) =>
    contextOf(curve, {
      uncertainty: { ...contextOf(curve).uncertainty, buoyancy_u_mg: 0.1, blank_u_mg: 0.01 },
      ...more,
    });

  test("is that of its masses, with the amplitude of a run without blank or with one", () => {
    const curve = quietCurve();
    const expected = 5 * 0.1 * (shape(60) - shape(200));
    const plain = budget(context(curve), window(60, 200));
    expect(plain.effects.buoyancy).toBeCloseTo(expected, 6);
    expect(plain.keys.buoyancy).toBe("buoyancy:the balance");
    expect(budget(context(curve, { balance: "B1" }), window(60, 200)).keys.buoyancy).toBe("buoyancy:B1");
    const blanked = budget(context(curve, { balance: "B1", blank: "empty.txt" }), window(60, 200));
    expect(blanked.effects.buoyancy).toBeCloseTo(expected / 10, 7);
    expect(blanked.keys.buoyancy).toBe("blank:empty.txt");
  });

  test("takes in the mass it is referred to, on the curve or on single readings", () => {
    const curve = quietCurve();
    const onCurve = functional();
    addWeight(onCurve.mass, curve.temperature.indexOf(350), 1);
    const onReadings = functional();
    addWeight(onReadings.readings, 3249, 1);
    const T = curve.run.temperature[3249]!;
    const index = (100 * loss(60, 200)) / 20;
    for (const [weights, at] of [
      [onCurve, 350],
      [onReadings, T],
    ] as const) {
      const { effects } = budget(context(curve), window(60, 200), { reference: { ...twenty, weights } });
      expect(effects.buoyancy).toBeCloseTo(0.1 * (5 * (shape(60) - shape(200)) - (index / 20) * shape(at)), 5);
    }
  });

  test("of a run in % of its mass has the amplitude in %", () => {
    const curve = quietCurve({ massUnit: "%" });
    const effect = 5 * 0.1 * (shape(60) - shape(200));
    // Without a mass 30 mg are assumed; of 20 mg 0.1 mg is half a per cent.
    expect(budget(context(curve), window(60, 200)).effects.buoyancy).toBeCloseTo((effect * 100) / 30, 6);
    const known = { ...curve, run: { ...curve.run, initialMass: 20 } };
    expect(budget(context(known), window(60, 200)).effects.buoyancy).toBeCloseTo(effect * 5, 5);
  });

  test("has no sign where there is none", () => {
    expect(Object.is(budget(contextOf(quietCurve()), window(60, 200)).effects.buoyancy, 0)).toBe(true);
  });
});

describe("noise, reference and baseline of an index", () => {
  test("noise goes through the weights of loss and reference", () => {
    const quiet = quietCurve();
    const curve = { ...quiet, noise: { ...quiet.noise, sd: 0.01, lagOne: 0 } };
    const onCurve = functional();
    addWeight(onCurve.mass, curve.temperature.indexOf(350), 1);
    const index = (100 * loss(60, 200)) / 20;
    const whole = functional();
    for (const [T, w] of [
      [60, 5],
      [200, -5],
      [350, -index / 20],
    ] as const) {
      addWeight(whole.mass, curve.temperature.indexOf(T), w);
    }
    const found = budget(contextOf(curve), window(60, 200), { reference: { ...twenty, weights: onCurve } });
    expect(found.effects.noise! / noiseOf(curve, whole)).toBeCloseTo(1, 4);
    expect(found.keys.noise).toBe("noise:a.txt");
    expect(found.u).toBeCloseTo(Math.abs(found.effects.noise!), 12);
  });

  test("noise is never below that of the print of one loss, d/√12", () => {
    const { effects } = budget(contextOf(quietCurve({ resolution: 0.001 })), window(60, 200));
    expect(effects.noise).toBeCloseTo((5 * 0.001) / Math.sqrt(12), 9);
    expect(noiseTerm(contextOf(quietCurve({ resolution: 0.01 })), functional(), 2)).toEqual({
      ...{ cause: "noise", effect: expect.closeTo(0.02 / Math.sqrt(12), 12), key: "noise:a.txt" },
    });
  });

  test("an error of the reference mass enters with the opposite sign, as a share", () => {
    const reference = { ...twenty, terms: [{ cause: "sand", relative: 0.02, key: "mix:M:sand" }] };
    const { effects, value, keys } = budget(contextOf(quietCurve()), window(60, 200), { reference });
    expect(effects.sand).toBeCloseTo(-0.02 * value, 12);
    expect(keys.sand).toBe("mix:M:sand");
    const none = { ...twenty, terms: [{ cause: "sand", relative: 0, key: "mix:M:sand" }] };
    expect(Object.is(budget(contextOf(quietCurve()), window(60, 200), { reference: none }).effects.sand, 0)).toBe(true);
  });

  test("the choice of the baseline counts on request, where there is one: its width over √12", () => {
    const asked = contextOf(quietCurve());
    const context = { ...asked, uncertainty: { ...asked.uncertainty, baseline_choice: true } };
    const found = budget(context, window(60, 200), { bracket: 0.6 });
    expect(found.effects.baseline).toBeCloseTo(3 / Math.sqrt(12), 12);
    expect(found.keys.baseline).toBe("baseline:w");
    expect(budget(context, window(60, 200)).effects).not.toHaveProperty("baseline");
    expect(budget(asked, window(60, 200), { bracket: 0.6 }).effects).not.toHaveProperty("baseline");
  });

  test("the tangent's noise holds that of its peak: the slope of the loss with it times its jitter", () => {
    const quiet = quietCurve();
    const curve = { ...quiet, noise: { ...quiet.noise, sd: 0.01, lagOne: 0 } };
    const tangent = { before_C: [60, 80] as [number, number], after_C: [160, 200] as [number, number] };
    const of: Window = { ...window(80, 160, "tangent"), tangent };
    const jitter = functional();
    addWeight(jitter.dtg, curve.temperature.indexOf(300), 1000);
    const noiseAt = (
      peak: { temperature: number; dtg: number; jitter: typeof jitter } | null,
      rule: Rule = "tangent",
    ) => {
      const input = { window: of, rule, peak, reference: twenty, bracket: null };
      const found = measureIndex(contextOf(curve), { ...input, loss: weighed(curve, { ...of, rule }, 120) });
      if ("missing" in found) throw new Error(found.missing);
      return found.terms.find(({ cause }) => cause === "noise")!.effect;
    };
    const peak = { temperature: 120, dtg: 1, jitter };
    // The readings about 300 °C are none of the tangent's: the two errors add in squares.
    const at = (T: number) => {
      const found = weighed(curve, of, T);
      if ("missing" in found) throw new Error(found.missing);
      return found.value;
    };
    const added = 5 * (at(120.5) - at(119.5)) * noiseOf(curve, jitter);
    expect(noiseAt(peak)).toBeCloseTo(Math.hypot(noiseAt(null), added), 9);
    expect(Math.abs(added)).toBeGreaterThan(0.01 * noiseAt(null));
    expect(noiseAt(peak, "step")).toBe(noiseAt(null, "step"));
  });
});

describe("indices of one run taken together", () => {
  const quiet = quietCurve();
  const curve = { ...quiet, noise: { ...quiet.noise, sd: 0.01, lagOne: 0 } };
  const context = contextOf(curve);
  const part = (factor: number, of: Window) => {
    const { value, u, terms } = budget(context, of);
    return { factor, index: { value, u, terms }, loss: weighed(curve, of) };
  };

  test("add with their factors, and what they share of the noise cancels", () => {
    const [low, high] = [part(1, window(60, 200)), part(1, window(200, 300))];
    const found = combineIndices(context, [low, high], twenty);
    if ("missing" in found) throw new Error(found.missing);
    const whole = budget(context, window(60, 300));
    expect(found.value).toBeCloseTo(whole.value, 9);
    // The mass at 200 °C stands in both and in neither.
    expect(found.terms[0]!.effect / whole.effects.noise!).toBeCloseTo(1, 9);
    expect(found.terms[0]!.effect).toBeLessThan(Math.hypot(low.index.terms[0]!.effect, high.index.terms[0]!.effect));
    expect(found.u).toBeCloseTo(combineTerms(found.terms), 12);
    expect(found.terms.map(({ cause }) => cause)).toEqual(["noise", "buoyancy"]);
  });

  test("one alone is multiplied, its budget too", () => {
    const only = part(-2, window(60, 200));
    const found = combineIndices(context, [only], twenty);
    if ("missing" in found) throw new Error(found.missing);
    expect(found.value).toBe(-2 * only.index.value);
    expect(found.terms[0]!.effect).toBe(-2 * only.index.terms[0]!.effect);
  });

  test("the mass they are referred to is in the noise once", () => {
    const weights = functional();
    addWeight(weights.mass, curve.temperature.indexOf(350), 1);
    const reference = { ...twenty, weights };
    const parts = [part(1, window(60, 200)), part(-3, window(200, 300))];
    const found = combineIndices(context, parts, reference);
    if ("missing" in found) throw new Error(found.missing);
    const whole = functional();
    for (const [T, w] of [
      [60, 5],
      [200, -5 - 15],
      [300, 15],
      [350, -found.value / 20],
    ] as const) {
      addWeight(whole.mass, curve.temperature.indexOf(T), w);
    }
    expect(found.terms[0]!.effect / noiseOf(curve, whole)).toBeCloseTo(1, 6);
  });

  test("the print counts by the largest factor", () => {
    const printed = contextOf({ ...quiet, run: { ...quiet.run, massResolution: 0.001 } });
    const parts = [part(1, window(60, 200)), part(-3, window(200, 300))];
    const found = combineIndices(printed, parts, twenty);
    if ("missing" in found) throw new Error(found.missing);
    expect(found.terms[0]!.effect).toBeCloseTo((3 * 5 * 0.001) / Math.sqrt(12), 9);
  });

  test("are missing by the code of the first that is, as an index or as a loss", () => {
    const there = part(1, window(60, 200));
    const noIndex = { ...there, index: { missing: "no-binder-loss" } };
    const noLoss = { ...there, loss: { missing: "window-truncated" } };
    expect(combineIndices(context, [there, noIndex], twenty)).toEqual({ missing: "no-binder-loss" });
    expect(combineIndices(context, [noLoss, there], twenty)).toEqual({ missing: "window-truncated" });
  });
});

describe("the mass of a binder", () => {
  const weights = { mass: { at: [3], w: [1] }, dtg: { at: [], w: [] }, readings: { at: [], w: [] } };
  const of = (mix: Parameters<typeof makeMix>[0], ignited: Weighed | Reference = { value: 24, weights }) => {
    const found = referenceMass("binder", { ignited, initial: { value: 40, weights }, mix: makeMix(mix) });
    if ("missing" in found) throw new Error(found.missing);
    return found;
  };

  test("carries the errors of its loss on ignition and of the sand, and those of the ignited mass before them", () => {
    const known = { loi_binder_pct: 4, u_loi_binder_pct: 0.48, sand_binder_ignited: 1, u_sand_binder_ignited: 0.1 };
    const furnace = { cause: "furnace", relative: 0.01, key: "residue:a" };
    const found = of(known, { value: 24, weights: null, terms: [furnace] });
    // 24/2/0.96; d ln(1/(1 − LOI)) = u/(1 − LOI); d ln(1/(1 + s)) = −u/(1 + s).
    expect(found).toEqual({
      value: expect.closeTo(12.5, 12),
      weights: null,
      terms: [
        furnace,
        { cause: "loss on ignition of the binder", relative: expect.closeTo(0.005, 12), key: "mix:M:loi" },
        { cause: "sand", relative: expect.closeTo(-0.05, 12), key: "mix:M:sand" },
      ],
    });
  });

  test("has no term for what has no error", () => {
    const found = of({ loi_binder_pct: 4 });
    expect(found.terms).toEqual([]);
    expect(found.value).toBeCloseTo(25, 12);
    expect(found.weights!.mass.w[0]).toBeCloseTo(25 / 24, 12);
    // What was handed in stays.
    expect(weights.mass.w).toEqual([1]);
  });

  test("is missing by the code of what it is made from", () => {
    for (const basis of ["ignited", "binder"] as const) {
      const masses = { ignited: { missing: "ends-before-ignition" }, initial: { value: 40, weights }, mix: makeMix() };
      expect(referenceMass(basis, masses)).toEqual({ missing: "ends-before-ignition" });
    }
  });
});
