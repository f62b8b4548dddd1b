import { describe, expect, test } from "vitest";
import { subtractBlank } from "../../src/curve/subtractBlank.ts";
import { seededRandom } from "../../src/numerics/seededRandom.ts";
import { makeRun, ramp } from "../makeRun.ts";

const options = { grid: { step_C: 0.5 }, smoothing: { width_C: 10, degree: 3 } };
const tg = (T: number) => 30 - 4 / (1 + Math.exp((120 - T) / 5));
/** Buoyancy of 0.08 mg times 1 − T₀/T. */
const lift = (T: number) => 0.08 * (1 - 298.15 / (T + 273.15));

function programme(rate: number, rows = 2000) {
  return ramp(25, 1000, { rows, rate });
}

const made = (rate: number, mass: (T: number, t: number) => number, name: string, rows?: number) => {
  const { temperature, time } = programme(rate, rows);
  return makeRun(
    temperature,
    temperature.map((T, i) => mass(T, time[i]!)),
    { time, name },
  );
};

const worst = (a: ArrayLike<number>, b: number[]) => Math.max(...b.map((x, i) => Math.abs(a[i]! - x)));

describe("a blank run", () => {
  test("of the same programme takes buoyancy and drift away, by time", () => {
    const drift = (t: number) => 0.00001 * t;
    const run = made(10, (T, t) => tg(T) + lift(T) + drift(t), "a.txt");
    const blank = made(10, (T, t) => 0.2 + lift(T) + drift(t), "blank.txt");
    const corrected = subtractBlank(run, blank, options);
    // The blank's zero is the median of its first readings: a constant of under half a microgram.
    expect(worst(corrected.mass, [...run.temperature].map(tg))).toBeLessThan(5e-4);
    expect(corrected.flags).toEqual([]);
  });

  test("of another rate is taken by temperature, and the rates are said", () => {
    const run = made(10, (T) => tg(T) + lift(T), "a.txt");
    const blank = made(20, (T) => -0.1 + lift(T), "blank.txt");
    const corrected = subtractBlank(run, blank, options);
    expect(worst(corrected.mass, [...run.temperature].map(tg))).toBeLessThan(3e-4);
    expect(corrected.flags.map((f) => f.sentence)).toEqual([
      "The blank blank.txt was heated at 20.0 K/min, the run at 10.0 K/min.",
    ]);
  });

  test("that stops early is said, with both ranges", () => {
    const run = made(10, (T) => tg(T) + lift(T), "a.txt");
    const { temperature, time } = ramp(25, 700, { rows: 1400, rate: 10 });
    const blank = makeRun(temperature, temperature.map(lift), { time, name: "short.txt" });
    expect(subtractBlank(run, blank, options).flags.map((f) => f.sentence)).toEqual([
      "The blank short.txt covers 25 to 700 °C, the run 25 to 1000 °C: beyond it the nearest value was taken.",
    ]);
  });

  test("without time is taken by temperature without a word about the programme", () => {
    const run = made(10, (T) => tg(T) + lift(T), "a.txt");
    const timed = made(10, lift, "blank.txt");
    const corrected = subtractBlank(run, { ...timed, time: null }, options);
    expect(corrected.flags).toEqual([]);
    expect(worst(corrected.mass, [...run.temperature].map(tg))).toBeLessThan(3e-4);
  });

  test("adds next to none of its own noise", () => {
    const random = seededRandom(4);
    const run = made(10, (T) => tg(T) + lift(T), "a.txt", 5000);
    const blank = made(10, (T) => lift(T) + 0.002 * random.normal(), "blank.txt", 5000);
    const corrected = subtractBlank(run, blank, options);
    const errors = [...run.temperature].map((T, i) => corrected.mass[i]! - tg(T));
    const sd = Math.sqrt(errors.reduce((sum, e) => sum + e * e, 0) / errors.length);
    // The first reading of the blank is its zero: its noise shifts all by one value; the rest is averaged over 50 readings.
    const shift = errors.reduce((sum, e) => sum + e, 0) / errors.length;
    expect(Math.sqrt(sd * sd - shift * shift)).toBeLessThan(0.0005);
  });

  test("in % is refused by name, and so is a run in %", () => {
    const run = made(10, tg, "a.txt");
    const percent = { ...made(10, lift, "blank.txt"), massUnit: "%" as const };
    const message =
      "the mass is given in % only: a blank can be subtracted from masses in absolute units only; give initial_mass_mg in the run sheet, or leave the blank out";
    expect(() => subtractBlank(run, percent, options)).toThrow(`blank.txt: ${message}`);
    expect(() => subtractBlank({ ...run, massUnit: "%" }, made(10, lift, "b"), options)).toThrow(`a.txt: ${message}`);
  });

  test("changes neither run nor blank", () => {
    const run = made(10, tg, "a.txt");
    const blank = made(10, lift, "blank.txt");
    const before = structuredClone({ run, blank });
    subtractBlank(run, blank, options);
    expect({ run, blank }).toEqual(before);
  });
});
