import { describe, expect, test } from "vitest";
import { chooseWidth } from "../../src/curve/chooseWidth.ts";
import { scoreWidths } from "../../src/curve/scoreWidths.ts";
import { seededRandom } from "../../src/numerics/seededRandom.ts";
import { protocols } from "../../src/protocol/protocols.ts";
import { settle } from "../../src/protocol/settle.ts";
import { settleSmoothing, smoothingWidths } from "../../src/protocol/settleSmoothing.ts";
import type { Protocol } from "../../src/protocol/types.ts";
import { makeRun, ramp } from "../makeRun.ts";

const options = { grid: { step_C: 0.5 }, smoothing: { width_C: 10, degree: 3 } };
const widths = Array.from({ length: 19 }, (_, i) => 4 + 2 * i);

/** 30 mg with one peak of the given logistic width (the DTG peak is 3.5 times as wide at half its height). */
function run(width: number, noise: number, seed: number, rho = 0) {
  const random = seededRandom(`width ${width} ${noise} ${seed}`);
  const { temperature, time } = ramp(25, 600, { rows: 3000, rate: 10 });
  let e = random.normal();
  const mass = temperature.map((T) => {
    e = rho * e + Math.sqrt(1 - rho * rho) * random.normal();
    return 30 - 4 / (1 + Math.exp((150 - T) / width)) + noise * e;
  });
  return makeRun(temperature, mass, { time });
}

const chosen = (width: number, noise: number, rho = 0) =>
  chooseWidth([1, 2, 3, 4, 5].map((seed) => scoreWidths(run(width, noise, seed, rho), options, widths)));

describe("the smoothing width chosen from the runs", () => {
  test("is wider for wider peaks", () => {
    const [sharp, broad] = [chosen(4, 0.002), chosen(12, 0.002)];
    expect(sharp.width_C).toBeLessThan(broad.width_C);
  });

  test("is wider for noisier balances", () => {
    expect(chosen(6, 0.0005).width_C).toBeLessThan(chosen(6, 0.01).width_C);
  });

  test("does not take correlated noise for a flattened peak", () => {
    expect(chosen(8, 0.003, 0.5).width_C).toBeGreaterThan(6);
  });

  test("says how much it lowers the sharpest peak, which is little", () => {
    const { peak_bias_pct } = chosen(6, 0.002);
    expect(peak_bias_pct).toBeGreaterThan(-1);
    expect(peak_bias_pct).toBeLessThan(6);
  });

  test("needs a run", () => {
    expect(() => chooseWidth([])).toThrow(new RangeError("Give the scores of at least one run and one width"));
  });
});

describe("a protocol that chooses its smoothing", () => {
  const protocol: Protocol = {
    ...protocols.csa,
    smoothing: { width_C: 10, degree: 3, choose: { least_C: 4, most_C: 20 } },
  };

  test("is settled with the width and its record", () => {
    const scores = [1, 2, 3].map((seed) => scoreWidths(run(6, 0.002, seed), protocol, smoothingWidths(protocol)));
    const { protocol: smoothed, record } = settleSmoothing(protocol, scores);
    const settled = settle(smoothed, { smoothing: record });
    expect(settled.smoothing).toEqual({ width_C: record.width_C, degree: 3 });
    expect(settled.settled).toEqual({ by: "fixed edges, smoothing chosen from the runs", smoothing: record });
    expect(smoothingWidths(protocol)).toContain(record.width_C);
  });

  test("is not settled without the runs", () => {
    expect(() => settle(protocol)).toThrow(
      new TypeError("Choose the smoothing width first (settleSmoothing): the protocol takes it from the runs"),
    );
  });

  test("with reversed limits is refused", () => {
    const reversed = { ...protocol, smoothing: { ...protocol.smoothing, choose: { least_C: 20, most_C: 4 } } };
    expect(() => settle(reversed)).toThrow("smoothing.choose.least_C must lie below most_C, not 20 and 4");
  });
});
