import { describe, expect, test } from "vitest";
import type { PeakProblem, PeakSpec } from "../../src/losses/fitTypes.ts";
import { mergedPeak } from "../../src/losses/mergedPeak.ts";
import { peakProblem } from "../../src/losses/peakProblem.ts";
import { peakRange } from "../../src/losses/peakRange.ts";
import { peakCurve, type TruePeak } from "./peakRun.ts";

/** The problem of fitting these peaks from 40 to 390 °C to a run that loses what `truth` says. */
function problemOf(truth: TruePeak[], peaks: PeakSpec[]): PeakProblem {
  const curve = peakCurve(truth, { background: 0 });
  const spec = { peaks, from_C: 40, to_C: 390, baseline: "none" as const };
  const range = peakRange(curve, spec);
  if ("reason" in range) throw new Error(range.message);
  return peakProblem(curve, spec, range);
}
const peak = (name: string, position: number, width_C: number): PeakSpec => ({
  name,
  position_C: [position - 15, position + 15],
  width_C,
});
const meanSquare = (values: ArrayLike<number>) => Array.from(values).reduce((sum, v) => sum + v * v, 0) / values.length;

describe("one peak of free shape in place of two", () => {
  const wide = { area: 3, position: 150, width: 44, asymmetry: 0.3 };
  const other = { area: 1.5, position: 290, width: 30, asymmetry: 0 };
  const left = { spec: peak("left", 140, 30), area: 1.6, at: 138 };
  const right = { spec: peak("right", 160, 30), area: 1.4, at: 163 };
  // Not where it is: it is fitted anew.
  const third = { spec: peak("third", 290, 30), area: 1.2, at: 286 };

  test.for([
    [
      [left, right, third],
      [0, 1],
    ],
    [
      [left, right, third],
      [1, 0],
    ],
    [
      [third, left, right],
      [1, 2],
    ],
    [
      [left, third, right],
      [0, 2],
    ],
    [
      [left, third, right],
      [2, 0],
    ],
  ] as const)("is found where the two are one, and all others with it: case %#", ([list, [a, b]]) => {
    const problem = problemOf(
      [wide, other],
      list.map(({ spec }) => spec),
    );
    const parameters = [...list.map(({ area }) => area), ...list.map(({ at }) => at)];
    const square = mergedPeak(problem, { parameters, pair: [a, b] });
    expect(Math.sqrt(square / meanSquare(problem.y))).toBeLessThan(1e-3);
    expect(parameters).toEqual([...list.map(({ area }) => area), ...list.map(({ at }) => at)]);
  });

  test.for([
    [100, 3, 300, 1, [0, 1]],
    [100, 1, 300, 3, [0, 1]],
    [100, 3, 300, 1, [1, 0]],
    [100, 1, 300, 3, [1, 0]],
  ] as const)(
    "takes the higher of two far apart and leaves the other: %d °C %d mg, %d °C %d mg, %j",
    ([first, areaFirst, second, areaSecond, pair]) => {
      const width = 30;
      const truth = [
        { area: areaFirst, position: first, width, asymmetry: 0 },
        { area: areaSecond, position: second, width, asymmetry: 0 },
      ];
      const problem = problemOf(truth, [peak("first", first, width), peak("second", second, width)]);
      const square = mergedPeak(problem, { parameters: [areaFirst, areaSecond, first, second], pair: [...pair] });
      // ∫ of the square of a Gaussian of area A: A²/(2σ√π), with the width 2σ√(2 ln 2).
      const sigma = width / 2 / Math.sqrt(2 * Math.LN2);
      const integral = Math.min(areaFirst, areaSecond) ** 2 / (2 * sigma * Math.sqrt(Math.PI));
      expect(square / (integral / 0.5 / problem.y.length)).toBeCloseTo(1, 1);
    },
  );

  /** What a search asks for, one shape after the other. */
  function watched(problem: PeakProblem) {
    const shapes: Parameters<PeakProblem["shapeOf"]>[0][] = [];
    const shapeOf: PeakProblem["shapeOf"] = (shape) => {
      shapes.push(shape);
      return problem.shapeOf(shape);
    };
    return { shapes, problem: { ...problem, shapeOf } };
  }
  const plain = () => problemOf([wide], [peak("left", 140, 30), peak("right", 160, 30)]);

  /** A triangle of height one with these half widths at half height. */
  const triangle =
    (position: number, colder: number, hotter: number) =>
    (T: number): number =>
      Math.max(0, 1 - Math.abs(T - position) / (2 * (T < position ? colder : hotter)));

  test.for([
    ["both at one place", 2, triangle(150, 8, 16), 1, triangle(150, 8, 16), [150, 24, Math.log(2)]],
    ["leaning the other way", 2, triangle(150, 16, 8), 1, triangle(150, 16, 8), [150, 24, -Math.log(2)]],
    ["the first is higher", 2, triangle(100, 8, 8), 1, triangle(200, 16, 16), [100, 16, 0]],
    ["the second is higher", 1, triangle(100, 8, 8), 2, triangle(200, 16, 16), [200, 32, 0]],
    ["of two as high the colder", 1, triangle(100, 8, 8), 1, triangle(200, 16, 16), [100, 16, 0]],
    ["more skew than is sensible", 1, triangle(150, 2, 32), 1, triangle(150, 2, 32), [150, 34, 1]],
    ["and to the other side", 1, triangle(150, 32, 2), 1, triangle(150, 32, 2), [150, 34, -1]],
    ["cut by the start of the range", 1, triangle(44, 8, 8), 1, triangle(44, 8, 8), [44, 12, Math.log(2)]],
    ["cut by its end", 1, triangle(386, 8, 8), 1, triangle(386, 8, 8), [386, 12, -Math.log(2)]],
  ] as const)(
    "is first sought with the summit and the half widths of the sum: %s",
    ([, areaA, shapeA, areaB, shapeB, [position, width, asymmetry]]) => {
      const given = plain();
      const values = [shapeA, shapeB].map((f) => given.temperature.map(f)) as [Float64Array, Float64Array];
      const { shapes, problem } = watched({ ...given, unit: (i) => values[i]! });
      mergedPeak(problem, { parameters: [areaA, areaB, 140, 160], pair: [0, 1] });
      expect(shapes[0]!.position).toBe(position);
      expect(shapes[0]!.width).toBe(width);
      expect(shapes[0]!.asymmetry).toBeCloseTo(asymmetry, 12);
    },
  );

  test("the summit is sought where the two peaks stand, in whatever order they are given", () => {
    const given = problemOf(
      [wide, other],
      [left, right, third].map(({ spec }) => spec),
    );
    const asked: [number, number][] = [];
    const unit: PeakProblem["unit"] = (i, position) => {
      asked.push([i, position]);
      return given.unit(i, position);
    };
    mergedPeak({ ...given, unit, model: () => () => 0 }, { parameters: [3, 2, 1, 141, 162, 293], pair: [2, 1] });
    expect(asked.sort(([i], [j]) => i - j)).toEqual([
      [1, 162],
      [2, 293],
    ]);
  });

  test.for([
    ["a spike", (T: number) => (T === 150 ? 1 : 0)],
    ["a rise that breaks off", (T: number) => (T > 100 && T < 180 ? (T - 100) / 80 : 0)],
    ["a fall without a rise", (T: number) => (T > 130 && T < 220 ? (220 - T) / 80 : 0)],
    ["a long tail", (T: number) => (T > 140 ? 1 / (T - 139) : 0)],
  ] as const)("has a width, and a skew below three, on the way too: %s", ([, f]) => {
    for (const at of [
      [150, 170],
      [100, 300],
    ] as const) {
      const given = plain();
      const y = given.temperature.map(f);
      const { shapes, problem } = watched({ ...given, y });
      const square = mergedPeak(problem, { parameters: [20, 10, ...at], pair: [0, 1] });
      for (const { width, asymmetry } of shapes) {
        expect(width).toBeGreaterThan(0);
        expect(Math.abs(asymmetry)).toBeLessThan(3);
      }
      // No peak at all would leave the mean square of the values.
      expect(square).toBeLessThan(meanSquare(y));
    }
  });
});
