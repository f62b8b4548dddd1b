import { describe, expect, test } from "vitest";
import { addTo, evaluate } from "../../src/curve/functional.ts";
import { massAt } from "../../src/curve/massAt.ts";
import { pullBack } from "../../src/curve/pullBack.ts";
import { toCurve } from "../../src/curve/toCurve.ts";
import type { CurveOptions } from "../../src/curve/types.ts";
import { makeRun, ramp } from "../makeRun.ts";

const options: CurveOptions = { grid: { step_C: 0.5 }, smoothing: { width_C: 10, degree: 3 } };
/** 30 mg that lose 3 mg about 120 °C and 2 mg about 280 °C. */
const tg = (T: number) => 30 - 3 / (1 + Math.exp((120 - T) / 8)) - 2 / (1 + Math.exp((280 - T) / 9));

/** 25 → 105 °C, an isothermal of `hold` s with `jump` mg lost in it, → 600 °C; one reading every 2 s, 10 K/min. */
function withIsothermal(hold: number, jump: number) {
  const temperature: number[] = [];
  const time: number[] = [];
  const mass: number[] = [];
  for (let t = 0; t <= 480 + hold + 2970; t += 2) {
    const T = t < 480 ? 25 + t / 6 : t < 480 + hold ? 105 : 105 + (t - 480 - hold) / 6;
    const lost = t < 480 ? 0 : t < 480 + hold ? (jump * (t - 480)) / hold : jump;
    time.push(t);
    temperature.push(T);
    mass.push(tg(T) - lost);
  }
  return makeRun(temperature, mass, { time });
}

describe("a plain heating", () => {
  const { temperature, time } = ramp(25, 1000, { rows: 5000, rate: 10 });
  const run = makeRun(temperature, temperature.map(tg), { time });
  const curve = toCurve(run, options);

  test("stands on multiples of the step inside the run", () => {
    expect(curve.temperature[0]).toBe(25.5);
    expect(curve.temperature.at(-1)).toBe(999.5);
    expect(curve.temperature.every((T) => Number.isInteger(T * 2))).toBe(true);
  });

  test("has its heating rate", () => {
    expect(curve.heatingRate).toBeCloseTo(10, 6);
  });

  test("follows the mass it came from; DTG is positive while mass is lost", () => {
    const largest = curve.temperature.reduce((worst, T, k) => Math.max(worst, Math.abs(curve.mass[k]! - tg(T))), 0);
    expect(largest).toBeLessThan(0.002);
    expect(Math.min(...curve.dtg)).toBeGreaterThan(-1e-4);
    const top = curve.dtg.indexOf(Math.max(...curve.dtg));
    expect(curve.temperature[top]).toBe(120);
  });

  test("without noise has next to no noise", () => {
    expect(curve.noise.sd).toBeLessThan(1e-5);
  });

  test("does not change the run", () => {
    expect([...run.temperature]).toEqual(temperature);
    expect([...run.mass]).toEqual(temperature.map(tg));
  });
});

describe("readings in any density", () => {
  test.for([300, 1000, 5000, 20000])("%i rows from 25 to 1000 °C give the same masses to 0.01 mg", (rows) => {
    const { temperature, time } = ramp(25, 1000, { rows, rate: 10 });
    const curve = toCurve(makeRun(temperature, temperature.map(tg), { time }), options);
    for (const T of [50, 220, 350, 600, 950]) {
      expect(evaluate(curve, massAt(curve, T, "leaving")!)).toBeCloseTo(tg(T), rows < 1000 ? 2 : 4);
    }
  });
});

describe("an isothermal inside the heating", () => {
  const curve = toCurve(withIsothermal(900, 0.5), options);

  test("is found with its temperature and its loss", () => {
    expect(curve.isothermals).toHaveLength(1);
    const [hold] = curve.isothermals;
    expect(hold!.position).toBe("inside");
    expect(hold!.temperature).toBe(105);
    expect(hold!.to - hold!.from).toBeGreaterThan(890);
    expect(hold!.entering - hold!.leaving).toBeCloseTo(0.5, 2);
  });

  test("an upper edge there takes the mass on entering, a lower edge the mass on leaving", () => {
    expect(evaluate(curve, massAt(curve, 105, "entering")!)).toBeCloseTo(tg(105), 2);
    expect(evaluate(curve, massAt(curve, 105, "leaving")!)).toBeCloseTo(tg(105) - 0.5, 2);
  });

  test("smoothing does not cross it", () => {
    expect(evaluate(curve, massAt(curve, 95, "leaving")!)).toBeCloseTo(tg(95), 4);
    expect(evaluate(curve, massAt(curve, 115, "leaving")!)).toBeCloseTo(tg(115) - 0.5, 3);
  });

  test("a pause of a minute is none", () => {
    expect(toCurve(withIsothermal(60, 0.05), options).isothermals).toEqual([]);
  });
});

describe("isothermals before and after the heating", () => {
  const temperature: number[] = [];
  const time: number[] = [];
  const mass: number[] = [];
  for (let t = 0; t <= 600 + 5550 + 900; t += 3) {
    const T = t < 600 ? 30 : t < 6150 ? 30 + (t - 600) / 6 : 955;
    time.push(t);
    temperature.push(T);
    mass.push(tg(T) + (t < 600 ? 0.3 * (1 - t / 600) : 0) - (t > 6150 ? 0.1 * Math.min((t - 6150) / 300, 1) : 0));
  }
  const curve = toCurve(makeRun(temperature, mass, { time }), options);

  test("are named after their place", () => {
    expect(curve.isothermals.map((hold) => hold.position)).toEqual(["start", "end"]);
    const [start, end] = curve.isothermals;
    expect(start!.entering - start!.leaving).toBeCloseTo(0.3, 2);
    expect(end!.entering - end!.leaving).toBeCloseTo(0.1, 2);
    expect(end!.to - end!.from).toBeGreaterThan(890);
  });

  test("the heating lies between them", () => {
    expect(curve.pieces).toHaveLength(1);
    expect(curve.pieces[0]!.from).toBeCloseTo(30, 0);
    expect(curve.pieces[0]!.to).toBeCloseTo(955, 0);
  });
});

describe("odd programmes", () => {
  test("cooling after the heating is left out", () => {
    const up = ramp(25, 900, { rows: 900, rate: 10 });
    const temperature = [...up.temperature, ...up.temperature.toReversed().slice(1)];
    const time = temperature.map((_, i) => i * 6);
    const curve = toCurve(makeRun(temperature, temperature.map(tg), { time }), options);
    expect(curve.pieces).toHaveLength(1);
    expect(curve.pieces[0]!.to).toBe(900);
    expect(curve.flags).toEqual([]);
  });

  test("of two separate heatings the larger is taken, and that is said", () => {
    const temperature = [
      ...ramp(25, 200, { rows: 200, rate: 10 }).temperature,
      ...ramp(25, 200, { rows: 200, rate: 10 }).temperature.toReversed(),
      ...ramp(25, 900, { rows: 900, rate: 10 }).temperature,
    ];
    const curve = toCurve(
      makeRun(temperature, temperature.map(tg), { time: temperature.map((_, i) => i * 6) }),
      options,
    );
    expect(curve.pieces.at(-1)!.to).toBe(900);
    expect(curve.flags.map((f) => f.sentence)).toEqual([
      "The file holds 2 separate heatings; the one from 25 °C to 900 °C was analysed.",
    ]);
  });

  test("an overshoot of 8 °C into an isothermal does not split the heating", () => {
    const temperature: number[] = [];
    for (let t = 0; t < 530; t += 2) temperature.push(25 + t / 6);
    for (let t = 0; t < 60; t += 2) temperature.push(113 - t / 7.5);
    for (let t = 0; t < 900; t += 2) temperature.push(105);
    for (let t = 0; t < 4000; t += 2) temperature.push(105 + t / 6);
    const curve = toCurve(
      makeRun(temperature, temperature.map(tg), { time: temperature.map((_, i) => 2 * i) }),
      options,
    );
    expect(curve.flags).toEqual([]);
    expect(curve.pieces[0]!.from).toBe(25);
    expect(curve.pieces.at(-1)!.to).toBeGreaterThan(700);
    expect(curve.isothermals.map((hold) => Math.round(hold.temperature))).toEqual([105]);
    expect(evaluate(curve, massAt(curve, 60, "leaving")!)).toBeCloseTo(tg(60), 3);
  });

  test("a run without a heating is refused by name", () => {
    const run = makeRun([25, 25.1, 25, 25.2], [1, 1, 1, 1], { name: "still.txt" });
    expect(() => toCurve(run, options)).toThrow(
      "still.txt: the temperature never rises by more than 5 °C: this is not a heating run",
    );
  });

  test("without time the curve is the same and says what it lacks", () => {
    const { temperature } = ramp(25, 1000, { rows: 2000, rate: 10 });
    const curve = toCurve(makeRun(temperature, temperature.map(tg)), options);
    expect(curve.heatingRate).toBeNull();
    expect(curve.flags.map((f) => f.code)).toEqual(["no-time"]);
    expect(evaluate(curve, massAt(curve, 220, "leaving")!)).toBeCloseTo(tg(220), 4);
  });

  test("a hole in the readings is flagged with its edges", () => {
    const { temperature, time } = ramp(25, 400, { rows: 751, rate: 10 });
    const keep = temperature.map((T) => T <= 150 || T >= 180);
    const T = temperature.filter((_, i) => keep[i]);
    const curve = toCurve(makeRun(T, T.map(tg), { time: time.filter((_, i) => keep[i]) }), options);
    expect(curve.flags.map((f) => f.sentence)).toEqual([
      "No readings between 150.0 and 180.0 °C; the curve is a straight line there.",
    ]);
  });

  test.for([
    [
      { grid: { step_C: 0 }, smoothing: { width_C: 10, degree: 3 } },
      "grid.step_C must lie between 0.05 and 5 °C, not 0",
    ],
    [
      { grid: { step_C: 0.5 }, smoothing: { width_C: 10, degree: 2.5 } },
      "smoothing.degree must be a whole number from 1 to 5, not 2.5",
    ],
    [
      { grid: { step_C: 0.5 }, smoothing: { width_C: 1, degree: 3 } },
      "smoothing.width_C must span more than 4 and at most 401 grid points: 1 °C are 3 points of 0.5 °C",
    ],
  ] as const)("options that cannot work are refused: %j", ([wrong, message]) => {
    const { temperature } = ramp(25, 400, { rows: 751, rate: 10 });
    expect(() => toCurve(makeRun(temperature, temperature.map(tg)), wrong)).toThrow(new RangeError(message));
  });
});

describe("weights pulled back to the readings", () => {
  const runs = {
    "a plain heating": (() => {
      const { temperature, time } = ramp(25, 400, { rows: 900, rate: 10 });
      return makeRun(temperature, temperature.map(tg), { time });
    })(),
    "a wobbling temperature": (() => {
      const { temperature, time } = ramp(25, 400, { rows: 900, rate: 10 });
      const wobbly = temperature.map((T, i) => T + 0.4 * Math.sin(i * 2.1));
      return makeRun(wobbly, wobbly.map(tg), { time });
    })(),
    "sparse readings": (() => {
      const { temperature, time } = ramp(25, 400, { rows: 200, rate: 10 });
      return makeRun(temperature, temperature.map(tg), { time });
    })(),
    "an isothermal": withIsothermal(900, 0.5),
  };

  test.for(Object.entries(runs))("reproduce the value and its change with every reading: %s", ([, run]) => {
    const curve = toCurve(run, options);
    const loss = addTo(massAt(curve, 52.3, "leaving")!, massAt(curve, 221.7, "entering")!, -1);
    const weights = new Float64Array(run.mass.length);
    for (const stretch of pullBack(curve, loss)) weights.set(stretch.weights, stretch.first);
    const value = evaluate(curve, loss);
    expect(weights.reduce((sum, w, i) => sum + w * run.mass[i]!, 0)).toBeCloseTo(value, 9);
    expect(weights.reduce((sum, w) => sum + w, 0)).toBeCloseTo(0, 9);
    // Finite differences through the whole stage: the curve is linear in the masses.
    for (let i = 0; i < run.mass.length; i += 37) {
      const mass = run.mass.slice();
      mass[i]! += 0.001;
      const changed = toCurve({ ...run, mass }, options);
      const change = evaluate(
        changed,
        addTo(massAt(changed, 52.3, "leaving")!, massAt(changed, 221.7, "entering")!, -1),
      );
      expect((change - value) / 0.001).toBeCloseTo(weights[i]!, 8);
    }
  });
});
