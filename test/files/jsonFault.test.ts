import fc from "fast-check";
import { expect, test } from "vitest";
import { jsonFault } from "../../src/files/jsonFault.ts";

test.for([
  ["a comma too many", '{\n "a": 1,\n}', "line 3, column 1: A comma stands before }: take it out."],
  ["a comma too many in a list", "[1, 2, ]", "line 1, column 8: A comma stands before ]: take it out."],
  ["a comma too few", '{\n "a": 1\n "b": 2}', "line 3, column 2: A comma or } is missing before this."],
  ["a name without quotes", "{a: 1}", 'line 1, column 2: The name of a field is missing here, in "double quotes".'],
  ["single quotes", "{'a': 1}", 'line 1, column 2: The name of a field is missing here, in "double quotes".'],
  ["no colon", '{"a" 1}', "line 1, column 6: A colon is missing before this."],
  ["no value", '{"a": }', "line 1, column 7: This is no value: a number, true, false, null or a text in quotes."],
  ["a decimal comma", '{"a": 1,5}', 'line 1, column 9: The name of a field is missing here, in "double quotes".'],
  [
    "a number with a point only",
    "[.5]",
    "line 1, column 2: This is no value: a number, true, false, null or a text in quotes.",
  ],
  [
    "a number with a leading zero",
    "[010]",
    "line 1, column 2: This is no value: a number, true, false, null or a text in quotes.",
  ],
  ["NaN", "[NaN]", "line 1, column 2: This is no value: a number, true, false, null or a text in quotes."],
  ["a comment", "{\n // why\n}", 'line 2, column 2: The name of a field is missing here, in "double quotes".'],
  [
    "a comment for a value",
    "[/* why */ 1]",
    "line 1, column 2: JSON knows no comments: use the fields note and description.",
  ],
  ["an open string", '{"a": "x\n}', "line 1, column 9: The string is not closed on its line."],
  ["a text that ends inside a string", '{"a', "line 1, column 4: The text ends inside a string."],
  ["an unknown escape", '["C:\\data"]', "line 1, column 5: This escape is unknown: write a backslash as \\\\."],
  ["a text that ends early", '{"a": [1,\n2', "line 2, column 2: A comma or ] is missing before this."],
  ["nothing", "", "line 1, column 1: The text ends too early."],
  ["two documents", "{}\n{}", "line 2, column 1: The document has ended before this: take it out."],
  [
    "beyond the basic plane",
    '{"😀": x}',
    "line 1, column 7: This is no value: a number, true, false, null or a text in quotes.",
  ],
  ["a deep nest", "[".repeat(600), "line 1, column 502: Brackets are nested too deep."],
] as const)("%s", ([, text, message]) => {
  const fault = jsonFault(text);
  expect(`line ${fault?.line}, column ${fault?.column}: ${fault?.what}`).toBe(message);
  expect(() => JSON.parse(text)).toThrow(SyntaxError);
});

const seed = 20260301;

test("agrees with the platform's parser on every JSON text", () => {
  fc.assert(
    fc.property(fc.json({ maxDepth: 6 }), fc.constantFrom(undefined, 1, "\t"), (text, indent) => {
      const spread = JSON.stringify(JSON.parse(text), null, indent);
      expect(jsonFault(text)).toBeNull();
      expect(jsonFault(spread)).toBeNull();
    }),
    { seed, numRuns: 500 },
  );
});

test("agrees with the platform's parser on broken JSON", () => {
  const pieces = [
    "{",
    "}",
    "[",
    "]",
    ",",
    ":",
    '"',
    "\\",
    "1",
    "-",
    "0",
    ".5",
    "e",
    "E+",
    "true",
    "nul",
    " ",
    "\n",
    "\u0001",
    "ä",
    "/",
  ];
  fc.assert(
    fc.property(
      fc.json({ maxDepth: 3 }),
      fc.nat(),
      fc.nat(5),
      fc.constantFrom(...pieces),
      (text, where, cut, piece) => {
        const at = where % (text.length + 1);
        const broken = text.slice(0, at) + piece + text.slice(at + cut);
        let parses = true;
        try {
          JSON.parse(broken);
        } catch {
          parses = false;
        }
        expect(jsonFault(broken) === null, broken).toBe(parses);
      },
    ),
    { seed, numRuns: 5000 },
  );
});
