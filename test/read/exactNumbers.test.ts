import fc from "fast-check";
import { expect, test } from "vitest";
import { readTable } from "../../src/read/readTable.ts";

// The yardstick is the language's own conversion (ECMAScript, StringToNumber: correctly rounded).
const digits = (most: number): fc.Arbitrary<string> =>
  fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 1, maxLength: most }).map((all) => all.join(""));

const written = fc
  .record({
    sign: fc.constantFrom("", "-", "+"),
    whole: digits(19),
    fraction: fc.option(digits(19), { nil: null }),
    exponent: fc.option(fc.integer({ min: -320, max: 300 }), { nil: null, freq: 3 }),
    letter: fc.constantFrom("e", "E"),
  })
  .map(({ sign, whole, fraction, exponent, letter }) => {
    const power = exponent === null ? "" : `${letter}${exponent}`;
    return `${sign}${whole}${fraction === null ? "" : `.${fraction}`}${power}`;
  })
  .filter((text) => Number.isFinite(Number(text)));

for (const [name, delimiter, mark] of [
  ["tab and point", "\t", "."],
  ["semicolon and comma", ";", ","],
  ["blanks and point", "  ", "."],
] as const) {
  test(`every number is read to the last bit: ${name}`, () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(written, written), { minLength: 12, maxLength: 40 }), (rows) => {
        const text = rows.map((cells) => cells.map((cell) => cell.replace(".", mark)).join(delimiter)).join("\n");
        const table = readTable(new TextEncoder().encode(`${text}\n`));
        const expected = [0, 1].map((column) => rows.map((cells) => Number(cells[column])));
        expect(table.values.map((values) => [...values])).toEqual(expected);
      }),
      { seed: 411, numRuns: 150 },
    );
  });
}

test("shortest decimal forms of random doubles come back as the same doubles", () => {
  fc.assert(
    fc.property(
      fc.array(
        fc.tuple(
          fc.double({ noNaN: true, noDefaultInfinity: true }),
          fc.float({ noNaN: true, noDefaultInfinity: true }),
        ),
        { minLength: 12, maxLength: 60 },
      ),
      (rows) => {
        const table = readTable(
          new TextEncoder().encode(`${rows.map((row) => row.map(String).join("\t")).join("\n")}\n`),
        );
        // String(-0) is "0".
        expect(table.values.map((values) => [...values])).toEqual(
          [0, 1].map((c) => rows.map((row) => row[c as 0 | 1] + 0)),
        );
      },
    ),
    { seed: 97, numRuns: 150 },
  );
});
