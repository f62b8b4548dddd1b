import { describe, expect, test } from "vitest";
import { fraserSuzuki } from "../../src/numerics/fraserSuzuki.ts";
import { seededRandom } from "../../src/numerics/seededRandom.ts";
import { indexRun } from "../../src/protocol/indexRun.ts";
import { protocols } from "../../src/protocol/protocols.ts";
import { settle } from "../../src/protocol/settle.ts";
import type { Protocol } from "../../src/protocol/types.ts";
import { makeRun, ramp } from "../makeRun.ts";

/** 30 mg that lose 4 mg in a peak at 115 °C and 1.5 mg in one at `second`, both 34 °C wide; 24.5 mg are left. */
function paste(second: number) {
  const random = seededRandom(`peaks ${second}`);
  const { temperature, time } = ramp(25, 1000, { rows: 4000, rate: 10 });
  const step = temperature[1]! - temperature[0]!;
  const rate = [
    { area: 4, shape: fraserSuzuki({ position: 115, width: 34, asymmetry: 0 }) },
    { area: 1.5, shape: fraserSuzuki({ position: second, width: 34, asymmetry: 0 }) },
  ];
  let lost = 0;
  const mass = temperature.map((T) => {
    for (const { area, shape } of rate) lost += area * shape(T - step / 2) * step;
    return 30 - lost + 0.001 * random.normal();
  });
  return makeRun(temperature, mass, { time, name: "p.txt" });
}

const protocol: Protocol = {
  ...protocols.csa,
  peaks: {
    from_C: 40,
    to_C: 300,
    baseline: "none",
    peaks: [
      { name: "aft", position_C: [95, 135], width_C: 34 },
      { name: "afm", position_C: [150, 220], width_C: 34 },
    ],
  },
};

describe("fitted peaks of a run", () => {
  const { peaks, flags } = indexRun(paste(185), settle(protocol));

  test("are indices with a budget that holds the truth", () => {
    expect(peaks.map(({ name }) => name)).toEqual(["aft", "afm"]);
    const truth = [400 / 24.5, 150 / 24.5];
    peaks.forEach(({ index }, i) => {
      if ("missing" in index) throw new Error(index.missing);
      expect(Math.abs(index.value - truth[i]!)).toBeLessThan(2 * index.u!);
      expect(index.u!).toBeLessThan(0.12 * truth[i]!);
      expect(new Set(index.terms.map(({ cause }) => cause))).toContain("noise");
    });
    expect(peaks[0]!.position_C).toBeCloseTo(115, 0);
    expect(flags.map(({ code }) => code)).not.toContain("peaks-refused");
  });

  test("that are not two are refused for both, never split, and a flag says why", () => {
    const refused = indexRun(paste(122), settle(protocol));
    expect(refused.peaks.every(({ index }) => "missing" in index)).toBe(true);
    expect(refused.flags.map(({ code }) => code)).toContain("peaks-refused");
    expect(refused.status).toBe("done");
  });

  test("are not there without a specification", () => {
    expect(indexRun(paste(185), settle(protocols.csa)).peaks).toEqual([]);
  });

  test("that cannot be fitted are a fault of the protocol", () => {
    const wrong = structuredClone(protocol);
    wrong.peaks!.peaks[1]!.position_C = [220, 150];
    expect(() => settle(wrong)).toThrow(
      "peaks: Peak afm: position_C must rise and lie inside 40–300 °C, not 220 and 150",
    );
    const named = { ...protocol, peaks: { ...protocol.peaks!, shape: "gauss" } };
    expect(() => settle(named as Protocol)).toThrow("peaks.shape is not a field of a protocol");
  });
});
