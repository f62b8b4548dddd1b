import { expect, test } from "vitest";
import { mean } from "../../src/numerics/mean.ts";
import { seededRandom } from "../../src/numerics/seededRandom.ts";
import { standardDeviation } from "../../src/numerics/standardDeviation.ts";
import { readReference } from "../readReference.ts";

/** The generator worked out in unbounded integers: test/reference/quantiles.py. */
const { seeds } = readReference<{ sfc32: { seeds: Record<string, number[]> } }>("quantiles").sfc32;

test.for(Object.entries(seeds))("the stream of seed %j is the one of the reference", ([seed, numbers]) => {
  const random = seededRandom(seed);
  expect(numbers.map(() => random.uniform())).toEqual(numbers);
});

test("a number and its text are one seed, neighbouring seeds are two streams", () => {
  expect(seededRandom(1).uniform()).toBe(seededRandom("1").uniform());
  expect(seededRandom(1).uniform()).not.toBe(seededRandom(2).uniform());
});

test("a hundred thousand uniform numbers fill twenty classes evenly", () => {
  const random = seededRandom("classes");
  const counts = new Array<number>(20).fill(0);
  for (let i = 0; i < 100_000; i++) counts[Math.floor(random.uniform() * 20)]!++;
  const chiSquare = counts.reduce((sum, count) => sum + (count - 5000) ** 2 / 5000, 0);
  // Mean 19 and standard deviation √38 for 19 degrees of freedom: four deviations either way.
  expect(Math.abs(chiSquare - 19)).toBeLessThan(4 * Math.sqrt(38));
});

test("normal numbers have mean 0, deviation 1, no memory, and tails of the right weight", () => {
  const random = seededRandom("normal");
  const n = 100_000;
  const values = Array.from({ length: n }, () => random.normal());
  const lagOne = mean(values.slice(1).map((value, i) => value * values[i]!));
  const beyond = values.filter((value) => Math.abs(value) > 1.959963984540054).length;
  expect(Math.abs(mean(values))).toBeLessThan(4 / Math.sqrt(n));
  expect(Math.abs(standardDeviation(values) - 1)).toBeLessThan(4 / Math.sqrt(2 * n));
  expect(Math.abs(lagOne)).toBeLessThan(4 / Math.sqrt(n));
  expect(Math.abs(beyond - 0.05 * n)).toBeLessThan(4 * Math.sqrt(n * 0.05 * 0.95));
});

test("streams of many seeds are independent of each other", () => {
  const first = Array.from({ length: 10_000 }, (_, seed) => seededRandom(seed).normal());
  expect(Math.abs(mean(first))).toBeLessThan(4 / 100);
  expect(Math.abs(mean(first.slice(1).map((value, i) => value * first[i]!)))).toBeLessThan(4 / 100);
});

test("a seed that is not finite is refused", () => {
  expect(() => seededRandom(Number.NaN)).toThrow(new RangeError("Give a finite number or a text as seed, not NaN"));
});
