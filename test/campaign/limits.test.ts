import { expect, test } from "vitest";
import { parseMixes } from "../../src/campaign/parseMixes.ts";
import { parseSheet } from "../../src/campaign/parseSheet.ts";
import { planRuns } from "../../src/campaign/planRuns.ts";
import { problemText } from "../../src/campaign/problemText.ts";
import { molarMass } from "../../src/chemistry/molarMass.ts";
import { checkProperties } from "../../src/compare/checkProperties.ts";
import { parseMargin } from "../../src/compare/parseMargin.ts";
import { parseProperties } from "../../src/compare/parseProperties.ts";
import { parseRequirement } from "../../src/compare/parseRequirement.ts";
import { nearestName } from "../../src/nearestName.ts";

const name = "t.csv";
const said = ({ problems }: { problems: Parameters<typeof problemText>[0][] }) => problems.map(problemText);

test("a table has at most 100,000 rows", () => {
  const rows = Array.from({ length: 100_001 }, (_, i) => `${i}.txt`);
  expect(parseSheet(`file\n${rows.slice(0, -1).join("\n")}\n`, { name }).rows).toHaveLength(100_000);
  expect(said(parseSheet(`file\n${rows.join("\n")}\n`, { name }))).toContain(
    "t.csv: the table has more than 100000 rows: name the right file, or split it",
  );
});

test.for([1001, 300_000])("a table has at most 1000 columns, not %s", (count) => {
  const text = `file${",x".repeat(count - 1)}\na.txt\n`;
  for (const parse of [parseSheet, parseMixes, parseProperties]) {
    expect(said(parse(text, { name }))).toContain(
      "t.csv: the table has more than 1000 columns: name the right file, or split it",
    );
  }
});

test("of a row with a million cells too many the first is named", () => {
  expect(said(parseSheet(`file\na.txt${",x".repeat(1_000_000)}\n`, { name }))).toEqual([
    't.csv, line 2: cell 2, "x", is beyond the 1 columns of the heading: name the column, or quote a cell that contains the delimiter',
  ]);
});

test("a thousand problems of cells are named, and that there are more", () => {
  const text = `file,age_d,curing_d\n${Array.from({ length: 900 }, (_, i) => `${i}.txt,x,x`).join("\n")}\n`;
  const problems = said(parseSheet(text, { name }));
  expect(problems).toHaveLength(1001);
  expect(problems.at(-1)).toBe(
    "t.csv: the table has more than 1000 problems: the rest is not listed; correct these first",
  );
});

test("names that nobody misspells are not compared: it would take the square of their length, or of their number", () => {
  const long = "x".repeat(100_000);
  expect(nearestName(`${long}a`, [`${long}b`])).toBeNull();
  const numbers = Array.from({ length: 5000 }, (_, i) => String(i).padStart(8, "0"));
  const sheet = `file,mix\n${numbers.map((n) => `${n}.txt,mix ${n} of the sheet`).join("\n")}\n`;
  const mixes = `mix\n${numbers.map((n) => `mix ${n} of the table`).join("\n")}\n`;
  const { problems } = planRuns({
    sheet: { name, text: sheet },
    mixes: { name: "m.csv", text: mixes },
    files: numbers.map((n) => `${n}.txt`),
  });
  expect(problems).toHaveLength(5000);
  const row = (mix: string) => ({
    mix,
    curing: null,
    curing_d: null,
    age_min: null,
    specimen: "1",
    value: 1,
    unit: "MPa",
  });
  const letters = numbers.map((n) => n.replaceAll(/\d/g, (digit) => "abcdefghij"[Number(digit)]!));
  const rows = letters.map((mix, line) => ({ ...row(`s${mix}`), property: "strength", line }));
  const cells = letters.map((mix) => ({ mix: `t${mix}t`, curing: null, curing_d: null, age_d: null }));
  expect(checkProperties(rows, cells, name).problems).toEqual([]);
});

test.for([
  ["1e300", "the number must be at least -1000000000000000 and at most 1000000000000000"],
  ["1e999", "write a plain number"],
  [`${"0".repeat(30_000)}x`, "write a plain number"],
] as const)("a property of %s is refused", ([value, message]) => {
  const { rows, problems } = parseProperties(`property,value,unit\nstrength,${value},MPa\n`, { name });
  expect([rows.length, problems.length]).toEqual([0, 1]);
  expect(problems[0]!.message).toContain(message);
});

test.for(["initial_mass_mg", "residue_mg"])("a mass that no balance weighs is refused under %s", (column) => {
  expect(said(parseSheet(`file,${column}\na.txt,1e-300\n`, { name }))).toEqual([
    `t.csv, line 2, column ${column}: no balance weighs 1e-300 mg: correct the number`,
  ]);
});

test("margins and requirements are short, and read in one pass", () => {
  for (const parse of [parseMargin, parseRequirement]) {
    for (const text of ["=".repeat(300), ">=".repeat(150), `a${" =".repeat(149)}`, "x".repeat(1_000_000)]) {
      expect(() => parse(text)).toThrow(/^Write a (?:margin|requirement) like/);
    }
  }
  expect(parseMargin("a=b=3 MPa")).toEqual([{ quantity: "a=b", kind: "value", size: 3, unit: "MPa" }]);
  expect(parseRequirement("a>=b>=24 MPa")).toEqual({ quantity: "a>=b", at: "least", value: 24, unit: "MPa" });
});

test("a formula nests at most 50 brackets", () => {
  const nested = (depth: number) => `${"(".repeat(depth)}H2O${")".repeat(depth)}`;
  expect(molarMass(nested(50))).toBe(molarMass("H2O"));
  for (const depth of [51, 1_000_000]) expect(() => molarMass(nested(depth))).toThrow("nest at most 50 brackets");
});
