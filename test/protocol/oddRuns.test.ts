import { describe, expect, test } from "vitest";
import { summarise } from "../../src/campaign/summarise.ts";
import { evaluate } from "../../src/curve/functional.ts";
import { massAt } from "../../src/curve/massAt.ts";
import { addShape, meanShape, type ShapeSums, shapeOf } from "../../src/curve/meanShape.ts";
import { subtractBlank } from "../../src/curve/subtractBlank.ts";
import { toCurve } from "../../src/curve/toCurve.ts";
import { losses } from "../../src/losses/losses.ts";
import { seededRandom } from "../../src/numerics/seededRandom.ts";
import { indexRun } from "../../src/protocol/indexRun.ts";
import { protocols } from "../../src/protocol/protocols.ts";
import { settle } from "../../src/protocol/settle.ts";
import { checkReadings } from "../../src/read/checkReadings.ts";
import { makeResult, twoWindows } from "../campaign/makeResult.ts";
import { makeRun, ramp } from "../makeRun.ts";

const csa = settle(protocols.csa);
const sigmoid = (T: number, at: number, width: number) => 1 / (1 + Math.exp((at - T) / width));
const tg = (T: number) => 20 - 5 * sigmoid(T, 150, 8);

/** A programme of legs [to °C, minutes] from 25 °C, a reading every `every` s; mass follows the temperature. */
function programme(legs: [number, number][], every = 2, start = 25) {
  const temperature: number[] = [];
  const time: number[] = [];
  let [t, from] = [0, start];
  for (const [to, minutes] of legs) {
    for (let s = 0; s < minutes * 60; s += every) {
      temperature.push(from + ((to - from) * s) / (minutes * 60));
      time.push(t + s);
    }
    t += minutes * 60;
    from = to;
  }
  return { temperature, time };
}

describe("odd but plausible runs", () => {
  test("an isothermal in the middle of one peak is no valley between two", () => {
    const { temperature, time } = programme([
      [150, 12.5],
      [150, 20],
      [1000, 85],
    ]);
    const sums: ShapeSums = { regimes: new Map() };
    addShape(sums, "a", shapeOf(toCurve(makeRun(temperature, temperature.map(tg), { time }), csa)));
    const settled = settle(protocols["csa-amounts"], { mean: meanShape(sums) });
    expect(settled.settled.resolved!.every(({ at_C }) => at_C === null)).toBe(true);
  });

  test("a hold after the ignition temperature does not hide the ignited mass", () => {
    const { temperature, time } = programme([
      [970, 94.5],
      [970, 10],
      [1000, 3],
    ]);
    const { ignited, flags } = losses(toCurve(makeRun(temperature, temperature.map(tg), { time }), csa), csa);
    expect("value" in ignited && ignited.value).toBeCloseTo(15, 4);
    expect(flags).toEqual([]);
  });

  test("a furnace still warm from the last run cools first: the heating starts where it turns", () => {
    const { temperature, time } = programme(
      [
        [28, 10],
        [1000, 97],
      ],
      2,
      95,
    );
    const curve = toCurve(makeRun(temperature, temperature.map(tg), { time }), csa);
    expect(curve.pieces[0]!.from).toBeLessThan(29);
    expect(curve.flags).toEqual([]);
    expect(evaluate(curve, massAt(curve, 60, "leaving")!)).toBeCloseTo(tg(60), 3);
  });

  test("a swing about an isothermal does not part the heating", () => {
    const { temperature, time } = programme([
      [135, 11],
      [112, 3],
      [124, 2],
      [117, 2],
      [120, 2],
      [120, 15],
      [1000, 88],
    ]);
    const curve = toCurve(makeRun(temperature, temperature.map(tg), { time }), csa);
    expect(curve.flags).toEqual([]);
    expect(curve.pieces[0]!.from).toBe(25);
    expect(curve.pieces.at(-1)!.to).toBeGreaterThan(990);
  });

  test("temperatures in whole degrees without time are no staircase of isothermals", () => {
    const temperature = Array.from({ length: 29_251 }, (_, i) => Math.round(25 + i / 30));
    const curve = toCurve(makeRun(temperature, temperature.map(tg)), csa);
    expect(curve.isothermals).toEqual([]);
    expect(evaluate(curve, massAt(curve, 300, "leaving")!)).toBeCloseTo(15, 2);
  });

  test("a very long run does not overflow anything", () => {
    const temperature = Array.from({ length: 200_000 }, (_, i) =>
      i < 100_000 ? 95 - i / 1500 : 28.4 + (i - 100_000) / 1600,
    );
    const time = temperature.map((_, i) => i / 10);
    expect(() => toCurve(makeRun(temperature, temperature.map(tg), { time }), csa)).not.toThrow();
  });

  test("odd readings at the very ends are flagged", () => {
    const { temperature, time } = ramp(25, 1000, { rows: 2000, rate: 10 });
    for (const at of [0, 1, 1998, 1999]) {
      const run = makeRun(temperature, temperature.map(tg), { time });
      run.mass[at]! -= 5;
      expect(checkReadings(run).map(({ code }) => code)).toContain("spikes");
    }
    expect(checkReadings(makeRun(temperature, temperature.map(tg), { time }))).toEqual([]);
  });

  test("an odd first reading of a blank does not shift the run", () => {
    const { temperature, time } = ramp(25, 1000, { rows: 2000, rate: 10 });
    const blank = makeRun(
      temperature,
      temperature.map(() => 0.1),
      { time, name: "blank" },
    );
    blank.mass[0]! += 1;
    const corrected = subtractBlank(makeRun(temperature, temperature.map(tg), { time }), blank, csa);
    expect(corrected.mass.at(-1)! - 15).toBeLessThan(0.03);
  });

  test("a sparser blank of the same programme is taken by time, without a word", () => {
    const legs: [number, number][] = [
      [105, 8],
      [105, 15],
      [1000, 90],
    ];
    const run = programme(legs, 2);
    const blank = programme(legs, 20);
    const drift = (t: number) => 0.00005 * t;
    const corrected = subtractBlank(
      makeRun(
        run.temperature,
        run.temperature.map((T, i) => tg(T) + drift(run.time[i]!)),
        { time: run.time },
      ),
      makeRun(blank.temperature, blank.time.map(drift), { time: blank.time, name: "blank" }),
      csa,
    );
    expect(corrected.flags).toEqual([]);
    expect(corrected.mass.at(-1)).toBeCloseTo(15, 2);
  });

  test("a blank that covers nothing of the run is refused by name", () => {
    const run = ramp(400, 1000, { rows: 900, rate: 10 });
    const blank = ramp(25, 300, { rows: 500, rate: 10 });
    expect(() =>
      subtractBlank(
        makeRun(run.temperature, run.temperature.map(tg), { time: run.time }),
        makeRun(
          blank.temperature,
          blank.temperature.map(() => 0),
          { time: blank.time, name: "cold.txt" },
        ),
        csa,
      ),
    ).toThrow("cold.txt: the blank covers 25 to 300 °C, the run 400 to 1000 °C: it has nothing to subtract");
  });

  test.for([
    [30, "The residue of the run sheet is 30 mg, the specimen weighed 20.000 mg before heating."],
    [1.5, "The residue of the run sheet is 1.5 mg, the run itself shows 15.000 mg at the ignition temperature."],
  ] as const)("a furnace residue of %d mg that the run contradicts is flagged", ([residue_mg, sentence]) => {
    const { temperature, time } = ramp(25, 1000, { rows: 4000, rate: 10 });
    const { flags } = indexRun(makeRun(temperature, temperature.map(tg), { time }), csa, { job: { residue_mg } });
    expect(flags.map((f) => f.sentence)).toContain(sentence);
  });

  test("a specimen that gains mass is flagged", () => {
    const { temperature, time } = ramp(25, 1000, { rows: 4000, rate: 10 });
    const { flags } = indexRun(
      makeRun(
        temperature,
        temperature.map((T) => 20 + T / 250),
        { time },
      ),
      csa,
    );
    expect(flags.map((f) => f.code)).toContain("mass-gained");
  });

  test("one file under two names is flagged", () => {
    const runs = ["a", "b"].map((file) => makeResult(file, [10, 1], { sha256: "f00" }));
    expect(summarise(runs, { protocol: twoWindows }).flags.map((f) => f.sentence)).toContain(
      "These files are the same to the byte: a, b.",
    );
  });

  test("noise alone, white or correlated, hardly ever has a peak", () => {
    let named = 0;
    let windows = 0;
    for (const rho of [0, 0.5, 0.8]) {
      for (let seed = 0; seed < 20; seed++) {
        const random = seededRandom(`flat ${rho} ${seed}`);
        const { temperature, time } = ramp(25, 1000, { rows: 3000, rate: 10 });
        let e = random.normal();
        const mass = temperature.map(() => {
          e = rho * e + Math.sqrt(1 - rho * rho) * random.normal();
          return 20 + 0.003 * e;
        });
        for (const window of indexRun(makeRun(temperature, mass, { time }), csa).windows) {
          windows++;
          if (window.peak_C !== null) named++;
        }
      }
    }
    expect(named / windows).toBeLessThan(0.05);
  });
});
