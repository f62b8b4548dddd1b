import fc from "fast-check";
import { expect, test } from "vitest";
import { nthSmallest } from "../../src/numerics/nthSmallest.ts";

const number = fc.oneof(
  fc.double({ noNaN: true, noDefaultInfinity: true }),
  fc.double({ min: -1, max: 1, noNaN: true }),
  fc.integer({ min: -3, max: 3 }),
);

test.for([1, 300] as const)("is what stands at its place after sorting, from %i values on", (minLength) => {
  fc.assert(
    fc.property(fc.array(number, { minLength, maxLength: 2 * minLength + 40 }), fc.nat(), (list, place) => {
      const n = place % list.length;
      const values = Float64Array.from(list);
      const before = values.slice();
      // −0 and 0 are equal.
      expect(nthSmallest(values, n) + 0).toBe(before.slice().sort()[n]! + 0);
      expect(values).toEqual(before);
    }),
    { seed: 7, numRuns: 300 },
  );
});

test.for([
  ["growing", Array.from({ length: 1001 }, (_, i) => i)],
  ["falling", Array.from({ length: 1001 }, (_, i) => 1000 - i)],
  ["all equal", new Array<number>(1001).fill(2)],
  ["one far off", [...new Array<number>(1000).fill(0.001), 1e300]],
] as const)("%s values", ([, list]) => {
  const sorted = [...list].sort((a, b) => a - b);
  for (const n of [0, 1, 500, 999, 1000]) expect(nthSmallest(Float64Array.from(list), n)).toBe(sorted[n]);
});
