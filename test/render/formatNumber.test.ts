import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { formatNumber } from "../../src/render/formatNumber.ts";

describe("a written number", () => {
  test.for([
    [0, "0"],
    [-0, "0"],
    [-1e-300 * 1e-300, "0"],
    [0.1 + 0.2, "0.3"],
    [1 / 6, "0.166666667"],
    [2 / 3, "0.666666667"],
    [18.7, "18.7"],
    [-4.125, "-4.125"],
    [123456789, "123456789"],
    [1234567890.4, "1234567890"],
    [999999999.9, "1000000000"],
    [0.000001, "0.000001"],
    [0.000012345678949, "0.0000123456789"],
    [1.5e-7, "1.5e-7"],
    [1e20, "100000000000000000000"],
    [1e21, "1e+21"],
    [Number.MAX_VALUE, "1.79769313e+308"],
    [5e-324, "5e-324"],
  ] as const)("%d is %s", ([value, text]) => {
    expect(formatNumber(value)).toBe(text);
  });

  test.for([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY])("%d is refused", (value) => {
    expect(() => formatNumber(value)).toThrow(new RangeError(`Write finite numbers only, not ${value}`));
  });

  test("reads back within half a unit of the ninth digit, and is written the same again", () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e300, max: 1e300 }), (value) => {
        const text = formatNumber(value);
        const back = Number(text);
        if (Math.abs(value) > 1e-300) expect(Math.abs(back / value - 1)).toBeLessThanOrEqual(5.0000001e-9);
        expect(formatNumber(back)).toBe(text);
        expect(text.replace(/e.*/, "").replace(/[-.]/g, "").replace(/^0+/, "").replace(/0+$/, "").length).toBeLessThan(
          10,
        );
      }),
      { seed: 9, numRuns: 500 },
    );
  });
});
