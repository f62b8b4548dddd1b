import { describe, expect, test } from "vitest";
import { toCurve } from "../../src/curve/toCurve.ts";
import { ignitedMass } from "../../src/losses/ignitedMass.ts";
import type { Ignition } from "../../src/losses/types.ts";
import { makeRun, ramp } from "../makeRun.ts";

const ignition: Ignition = { temperature_C: 950, half_width_C: 5, hold_min: 5, max_loss: 0.1, check_C: 50 };
const options = { grid: { step_C: 0.5 }, smoothing: { width_C: 10, degree: 3 } };
/** 30 mg that lose ever more: passes the smoothing unchanged. */
const square = (T: number) => 30 - 1e-5 * (T - 25) ** 2;

function heated(to: number, tg: (T: number) => number, more: { massUnit?: "mg" | "%" } = {}) {
  const { temperature, time } = ramp(25, to, { rows: (to - 25) * 4, rate: 10 });
  return toCurve(makeRun(temperature, temperature.map(tg), { time, ...more }), options);
}

const massOf = ({ ignited }: ReturnType<typeof ignitedMass>) => ("value" in ignited ? ignited.value : ignited.missing);
const saying = ({ flags }: ReturnType<typeof ignitedMass>) => flags.map(({ code, sentence }) => `${code}: ${sentence}`);

describe("from the heating", () => {
  test.for([
    // n grid points half a degree apart about a middle: their mean is lower by 1e-5·0.25·(n² − 1)/12.
    [1000, {}, 950, 21],
    // The last grid value is a mean over half a step on either side: it stands half a degree before the end.
    [950, {}, 947.25, 10],
    [948, {}, 945.25, 10],
    [945, {}, 942.25, 10],
    [1000, { half_width_C: 20 }, 950, 81],
    [1000, { temperature_C: 900 }, 900, 21],
    [1000, { half_width_C: 0 }, 950, 1],
  ] as [number, Partial<Ignition>, number, number][])(
    "to %d °C under %j it is the mean about %d °C of %d points",
    ([to, change, middle, n]) => {
      const found = ignitedMass(heated(to, square), { ...ignition, max_loss: 5, ...change });
      expect(massOf(found)).toBeCloseTo(square(middle) - (1e-5 * 0.25 * (n * n - 1)) / 12, 5);
      expect(found.flags).toEqual([]);
    },
  );

  test.for([
    [1000, {}, 900, 950],
    [947, {}, 897, 947],
    [1000, { check_C: 20 }, 930, 950],
  ] as [number, Partial<Ignition>, number, number][])(
    "to %d °C under %j it still lost what left from %d to %d °C",
    ([to, change, from, middle]) => {
      const { late } = ignitedMass(heated(to, square), { ...ignition, ...change });
      expect(late).toBeCloseTo(square(from) - square(middle), 4);
    },
  );

  test.for([
    [0.00049, []],
    // 50 °C at 0.00051 mg/°C are 0.0255 mg of 24.5 mg.
    [0.00053, ["not-ignited: The last 50 °C before ignition ends still lose 0.11 g per 100 g of ignited mass."]],
  ] as const)("a loss of %d mg/°C at the end, of 25 mg", ([slope, expected]) => {
    const found = ignitedMass(
      heated(1000, (T) => 25 + slope * (950 - T)),
      ignition,
    );
    expect(saying(found)).toEqual(expected);
    expect(found.late).toBeCloseTo(50 * slope, 6);
  });

  test("just as much as is allowed is no finding", () => {
    const found = ignitedMass(
      heated(1000, (T) => 25 + 0.001 * (950 - T)),
      ignition,
    );
    const index = (100 * found.late) / (massOf(found) as number);
    const curve = heated(1000, (T) => 25 + 0.001 * (950 - T));
    expect(ignitedMass(curve, { ...ignition, max_loss: index }).flags).toEqual([]);
    expect(ignitedMass(curve, { ...ignition, max_loss: index * 0.999 }).flags.length).toBe(1);
  });

  test("that begins above the place of comparison nothing is known of what was still lost", () => {
    const { temperature, time } = ramp(920, 1000, { rows: 400, rate: 10 });
    const curve = toCurve(
      makeRun(
        temperature,
        temperature.map((T) => 25 + 0.01 * (950 - T)),
        { time },
      ),
      options,
    );
    const found = ignitedMass(curve, ignition);
    expect([found.late, found.flags]).toEqual([0, []]);
    expect(massOf(found)).toBeCloseTo(25, 5);
  });

  test("that ends more than the half width before there is none, with the figures", () => {
    const found = ignitedMass(heated(944, square), ignition);
    expect(found).toMatchObject({ ignited: { missing: "ends-before-ignition" }, late: 0 });
    expect(saying(found)).toEqual([
      "ends-before-ignition: The heating ends at 944 °C, before the ignition temperature of 950 °C: there is no ignited mass.",
    ]);
  });

  test.for([
    ["mg", "-0.100 mg"],
    ["%", "-0.100 %"],
  ] as const)("a mass below nothing, in %s, is none", ([massUnit, shown]) => {
    const found = ignitedMass(
      heated(1000, (T) => (T < 500 ? 100 : -0.1), { massUnit }),
      ignition,
    );
    expect(found).toMatchObject({ ignited: { missing: "no-reference-mass" }, late: 0 });
    expect(saying(found)).toEqual([
      `no-reference-mass: The mass at the ignition temperature is ${shown}: no residue is left to refer to.`,
    ]);
  });
});

describe("from an isothermal at the end", () => {
  /** 25 mg at its start, that go on losing `rate` mg/min; `minutes` long, a reading every 2 s. */
  function held(at: number, minutes: number, more: { rate?: number; time?: boolean } = {}) {
    const { rate = 0.01, time: timed = true } = more;
    const temperature: number[] = [];
    const time: number[] = [];
    const mass: number[] = [];
    const ramped = (at - 25) * 6;
    for (let t = 0; t <= ramped + minutes * 60; t += 2) {
      time.push(t);
      temperature.push(Math.min(25 + t / 6, at));
      mass.push(25 - (rate * Math.max(t - ramped, 0)) / 60);
    }
    return toCurve(makeRun(temperature, mass, { time: timed ? time : null }), options);
  }

  test.for([
    [950, 10, true],
    [959, 10, true],
    [941, 10, true],
    [962, 10, false],
    [950, 5.5, true],
    [950, 4, false],
  ] as const)("at %d °C of %d min: the mean of its last minute is taken: %s", ([at, minutes, taken]) => {
    const found = ignitedMass(held(at, minutes), ignition);
    if (!taken) expect(massOf(found)).toBeCloseTo(25, 3);
    // 30 s before the end, on average.
    else expect(massOf(found)).toBeCloseTo(25 - 0.01 * (minutes - 0.5), 6);
  });

  test.for([
    [960, 300, true],
    [960.001, 300, false],
    [940, 300, true],
    [939.999, 300, false],
    [950, 299.999, false],
  ] as const)(
    "just ten degrees away, and as long as it has to be: %d °C, %d s: %s",
    ([temperature, seconds, taken]) => {
      const curve = held(950, 10);
      const [hold] = curve.isothermals.filter(({ position }) => position === "end");
      const moved = { ...curve, isothermals: [{ ...hold!, temperature, to: hold!.from + seconds }] };
      expect(massOf(ignitedMass(moved, ignition))).toBeCloseTo(taken ? 25 - 0.01 * 9.5 : 25, taken ? 6 : 3);
    },
  );

  test("an isothermal before the heating or inside it is not the last one", () => {
    const curve = held(950, 10);
    const [hold] = curve.isothermals.filter(({ position }) => position === "end");
    for (const position of ["start", "inside"] as const) {
      const early = { ...hold!, position, temperature: 150 };
      const found = ignitedMass({ ...curve, isothermals: [early, hold!] }, ignition);
      expect(massOf(found)).toBeCloseTo(25 - 0.01 * 9.5, 6);
    }
  });

  test("further below is no ignition", () => {
    expect(massOf(ignitedMass(held(938, 10), ignition))).toBe("ends-before-ignition");
  });

  test("its last five minutes tell whether it is over: the first of them against the last", () => {
    const found = ignitedMass(held(950, 10), ignition);
    expect(found.late).toBeCloseTo(0.04, 6);
    // 0.04 of 24.905 mg.
    expect(saying(found)).toEqual([
      "not-ignited: The last 5 min before ignition ends still lose 0.16 g per 100 g of ignited mass.",
    ]);
    expect(ignitedMass(held(950, 10, { rate: 0.005 }), ignition).flags).toEqual([]);
  });

  test("a shorter one than the protocol asks for is not taken", () => {
    expect(massOf(ignitedMass(held(950, 10), { ...ignition, hold_min: 11 }))).toBeCloseTo(25, 3);
  });

  test("without time there are no minutes: the heating before it is taken", () => {
    expect(massOf(ignitedMass(held(950, 10, { time: false }), ignition))).toBeCloseTo(25, 2);
  });

  test("with readings more than a minute apart it is its last reading", () => {
    const temperature: number[] = [];
    const time: number[] = [];
    const mass: number[] = [];
    for (let t = 0; t <= 5550; t += 2) {
      time.push(t);
      temperature.push(Math.min(25 + t / 6, 950));
      mass.push(25);
    }
    for (let i = 1; i <= 12; i++) {
      time.push(5550 + 100 * i);
      temperature.push(950);
      mass.push(25 - 0.001 * i);
    }
    const found = ignitedMass(toCurve(makeRun(temperature, mass, { time }), options), ignition);
    expect(massOf(found)).toBeCloseTo(25 - 0.012, 9);
    // Five to four minutes before the end stands the reading 300 s before it.
    expect(found.late).toBeCloseTo(0.003, 9);
  });
});
