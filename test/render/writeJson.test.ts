import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { formatNumber } from "../../src/render/formatNumber.ts";
import { jsonBytes } from "../../src/render/jsonBytes.ts";
import { toJson } from "../../src/render/toJson.ts";
import { writeNumber } from "../../src/render/writeNumber.ts";

const number = fc.oneof(
  fc.double({ noNaN: true, noDefaultInfinity: true }),
  fc.double({ noNaN: true, min: -2e6, max: 2e6 }),
  fc.double({ noNaN: true, min: -1e-2, max: 1e-2 }),
  fc.integer(),
  // Halfway between two numbers of nine digits, or nearly.
  fc.tuple(fc.integer({ min: 1e8, max: 1e9 }), fc.integer({ min: -15, max: 3 })).map(([n, e]) => (n + 0.5) * 10 ** e),
);

describe("JSON in UTF-8", () => {
  test("a number is what formatNumber says", () => {
    fc.assert(
      fc.property(number, (value) => {
        const sink = { bytes: new Uint8Array(1), end: 0 };
        writeNumber(sink, value);
        expect(new TextDecoder().decode(sink.bytes.subarray(0, sink.end))).toBe(formatNumber(value));
      }),
      { seed: 3, numRuns: 8_000 },
    );
  });

  test.for([0, -0, 1e-6, 9.999999999e-7, 0.999999999999, 999999.9999, 1e6, 999999999, 1e9, 0.1, 0.09999999999999999])(
    "%d too",
    (value) => {
      expect(toJson([value, -value])).toBe(`[${formatNumber(value)},${formatNumber(-value)}]`);
    },
  );

  test("any text and any structure reads back, and is what JSON.stringify and TextEncoder say", () => {
    const text = fc.string({ unit: "binary", maxLength: 20 });
    const { tree } = fc.letrec<{ tree: unknown }>((tie) => ({
      tree: fc.oneof(
        { depthSize: "small" },
        text,
        fc.integer({ min: -1e8, max: 1e8 }),
        fc.boolean(),
        fc.constant(null),
        fc.array(tie("tree"), { maxLength: 4 }),
        fc.dictionary(text, tie("tree"), { maxKeys: 4 }),
      ),
    }));
    fc.assert(
      fc.property(tree, (value) => {
        const bytes = jsonBytes(value);
        expect(JSON.parse(new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes))).toEqual(value);
        if (typeof value === "string") expect(bytes).toEqual(new TextEncoder().encode(JSON.stringify(value)));
      }),
      { seed: 5, numRuns: 300 },
    );
  });

  test("keys stand in their order, others after them by code unit, undefined nowhere", () => {
    const order = { b: true, a: { y: true } } as const;
    const value = { z: 1, a: [{ x: 1, y: 2 }], "ü\n": "ü\n", b: undefined, B: "\u2028" };
    expect(toJson(value, order)).toBe('{"a":[{"y":2,"x":1}],"B":"\u2028","z":1,"ü\\n":"ü\\n"}');
    expect(toJson({ a: undefined, b: 1 }, order)).toBe('{"b":1}');
  });

  test("what comes first is not overwritten by what comes next", () => {
    const first = jsonBytes({ a: "x".repeat(10_000) });
    const copy = first.slice();
    jsonBytes([1, 2, 3]);
    expect(first).toEqual(copy);
    expect(first.buffer.byteLength).toBe(first.length);
  });

  test.for([Number.NaN, Number.POSITIVE_INFINITY])("%d is refused", (value) => {
    expect(() => jsonBytes({ a: [value] })).toThrow(RangeError);
    expect(toJson([1])).toBe("[1]");
  });
});
