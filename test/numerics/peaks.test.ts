import { describe, expect, test } from "vitest";
import { fraserSuzuki } from "../../src/numerics/fraserSuzuki.ts";
import { runsTest } from "../../src/numerics/runsTest.ts";
import { seededRandom } from "../../src/numerics/seededRandom.ts";
import { readReference } from "../readReference.ts";

/** mpmath, the published form integrated: test/reference/peaks.py. */
const reference = readReference<{
  fraser_suzuki: {
    position: number;
    width: number;
    asymmetry: number;
    x: number[];
    height: number[];
    half_height_at: [number, number];
  }[];
  runs: { plus: number; minus: number; mean: number; deviation: number }[];
}>("peaks");

describe("Fraser–Suzuki peak", () => {
  test.for(reference.fraser_suzuki)(
    "of width $width and asymmetry $asymmetry is the published one, of area one",
    (peak) => {
      const f = fraserSuzuki(peak);
      for (const [i, x] of peak.x.entries()) expect((f(x) - peak.height[i]!) / f(peak.position)).toBeCloseTo(0, 11);
    },
  );

  test.for(reference.fraser_suzuki)("of width $width and asymmetry $asymmetry has that width and that skew", (peak) => {
    const [left, right] = peak.half_height_at;
    expect(right - left).toBeCloseTo(peak.width, 9);
    expect(Math.log((right - peak.position) / (peak.position - left))).toBeCloseTo(peak.asymmetry, 9);
    const f = fraserSuzuki(peak);
    for (const edge of peak.half_height_at) expect(f(edge) / f(peak.position)).toBeCloseTo(0.5, 9);
  });

  test("has nothing beyond the end of its shorter flank", () => {
    const f = fraserSuzuki({ position: 120, width: 30, asymmetry: -0.5 });
    expect(f(1000)).toBe(0);
    expect(f(100)).toBeGreaterThan(0);
  });

  test("without a width is refused", () => {
    expect(() => fraserSuzuki({ position: 120, width: 0 })).toThrow(
      new RangeError("Give a peak a positive width, not 0"),
    );
  });
});

describe("runs test", () => {
  test.for(reference.runs)("of $plus and $minus signs has the mean and the scatter of all arrangements", (expected) => {
    const { plus, minus, mean, deviation } = expected;
    const sorted = [...new Array<number>(plus).fill(1), ...new Array<number>(minus).fill(-2)];
    // In order there are two runs.
    expect(runsTest(sorted)).toBeCloseTo((2 - mean) / deviation, 12);
  });

  test("of independent values is near zero on average, with a standard deviation of one", () => {
    let [sum, squares] = [0, 0];
    for (let draw = 0; draw < 2000; draw++) {
      const random = seededRandom(`runs/${draw}`);
      const z = runsTest(Array.from({ length: 40 }, () => random.normal()))!;
      sum += z / 2000;
      squares += (z * z) / 2000;
    }
    expect(Math.abs(sum)).toBeLessThan(0.1);
    expect(Math.abs(squares - 1)).toBeLessThan(0.12);
  });

  test("with fewer than five of either sign tells nothing; zeros have no sign", () => {
    expect(runsTest([1, -1, 1, -1, 1, -1, 1, -1])).toBeNull();
    expect(runsTest([1, 1, 1, 1, 1, 0, -1, -1, -1, -1, -1])).toBe(runsTest([1, 1, 1, 1, 1, -1, -1, -1, -1, -1]));
  });
});
