import { describe, expect, test } from "vitest";
import { ageText } from "../../src/campaign/ageText.ts";
import { cellReader, type NumberStyle } from "../../src/campaign/cellReader.ts";
import { checkColumns } from "../../src/campaign/checkColumns.ts";
import { compareKeys } from "../../src/campaign/compareKeys.ts";
import { filePath } from "../../src/campaign/filePath.ts";
import { numberStyle } from "../../src/campaign/numberStyle.ts";
import { problemText } from "../../src/campaign/problemText.ts";
import { sheetColumns } from "../../src/campaign/sheetColumns.ts";
import { someNames } from "../../src/campaign/someNames.ts";
import type { SheetTable } from "../../src/campaign/splitSheet.ts";

const tableOf = (rows: readonly Record<string, string>[], delimiter = ";"): SheetTable => ({
  ...{ source: "s.csv", delimiter, columns: ["a", "b"], heading: 1, problems: [] },
  rows: rows.map((cells, i) => ({ line: i + 2, cells: new Map(Object.entries(cells)) })),
});
const point: NumberStyle = { decimalMark: ".", commaRefused: "no commas here" };
const comma: NumberStyle = { decimalMark: "," };

/** What a cell is read as, or what is said against it. */
function read(cell: string, style: NumberStyle, range?: Parameters<ReturnType<typeof cellReader>["number"]>[1]) {
  const table = tableOf([{ a: cell }]);
  const value = cellReader(table.rows[0]!, table, style).number("a", range);
  return value ?? table.problems[0]?.message;
}
const plain = "write a plain number, or leave the cell empty where it is not known";

describe("a number in a cell", () => {
  test.for([
    ["5", 5],
    ["+5", 5],
    ["-5", -5],
    ["\u22125", -5],
    ["12345", 12345],
    ["5.", 5],
    ["5.25", 5.25],
    [".5", 0.5],
    ["-.75", -0.75],
    ["1e3", 1000],
    ["1.5E-3", 0.0015],
    ["2.5e+2", 250],
    ["5.e1", 50],
    [".5e12", 5e11],
  ] as const)("%s is %d in either style", ([cell, value]) => {
    expect(read(cell, point)).toBe(value);
    expect(read(cell, comma)).toBe(value);
  });

  test.for([
    ["5,25", 5.25],
    [",5", 0.5],
    ["-12,5", -12.5],
    ["+0,5", 0.5],
    ["\u22120,5", -0.5],
    ["1,5e2", 150],
    ["1,25E-12", 1.25e-12],
    ["1,5e+1", 15],
  ] as const)("%s is %d where commas are decimal marks, and refused for its comma elsewhere", ([cell, value]) => {
    expect(read(cell, comma)).toBe(value);
    expect(read(cell, point)).toBe(`no commas here, not ${JSON.stringify(cell)}`);
  });

  test.for([
    ...[
      "5 mg",
      "mg 5",
      "1e",
      "e5",
      "5.2.1",
      "--5",
      "+-5",
      "5e1.5",
      "0x10",
      "1_000",
      "Infinity",
      "NaN",
      ".",
      "-",
      "1e999",
    ],
    ...["5,", ",", "1,2,3", "1.2,3", "x5,5", "5,5x", "5,5e", "5,5e1x"],
  ])("%s is none in either style", (cell) => {
    for (const style of [point, comma]) expect(read(cell, style)).toBe(`${plain}, not ${JSON.stringify(cell)}`);
  });

  test("a long cell is shown in part", () => {
    const sixty = "x".repeat(60);
    expect(read(sixty, point)).toBe(`${plain}, not "${sixty}"`);
    expect(read(`${sixty}y`, point)).toBe(`${plain}, not "${"x".repeat(57)}…"`);
  });

  test.for([
    [{ min: 0 }, ["0", "1"], ["-1"], "at least 0"],
    [{ max: 5 }, ["5", "-9"], ["5.1"], "at most 5"],
    [{ above: 0 }, ["0.1"], ["0", "-1"], "above 0"],
    [{ below: 5 }, ["4.9"], ["5", "6"], "below 5"],
    [{ min: 0, max: 5 }, ["0", "5"], ["-1", "6"], "at least 0 and at most 5"],
    [{ above: 0, max: 5 }, ["1", "5"], ["0", "6"], "above 0 and at most 5"],
    [{ min: 0, below: 5 }, ["0", "4"], ["-1", "5"], "at least 0 and below 5"],
    [{}, ["-1e9", "1e9"], [], ""],
  ] as const)("within %j", ([range, inside, outside, allowed]) => {
    for (const cell of inside) expect(read(cell, point, range)).toBe(Number(cell));
    for (const cell of outside) expect(read(cell, point, range)).toBe(`the number must be ${allowed}, not "${cell}"`);
  });

  test("that is not there is none, and no problem; problems have source, line and column", () => {
    const table = tableOf([{ a: "x" }, {}]);
    const [first, second] = table.rows.map((row) => cellReader(row, table, point));
    expect([second!.number("a"), second!.text("a"), second!.isEmpty("a")]).toEqual([null, null, true]);
    expect(table.problems).toEqual([]);
    expect([first!.isEmpty("a"), first!.number("a")]).toEqual([false, null]);
    first!.wrong("b", "is wrong");
    expect(table.problems).toEqual([
      { source: "s.csv", line: 2, column: "a", message: `${plain}, not "x"` },
      { source: "s.csv", line: 2, column: "b", message: "is wrong" },
    ]);
  });

  test("text may have line breaks and tabs, no other control character", () => {
    const table = tableOf([{ a: "one\n\ttwo", b: `${"y".repeat(70)}\u0007` }]);
    const cells = cellReader(table.rows[0]!, table, point);
    expect([cells.text("a"), cells.text("b")]).toEqual(["one\n\ttwo", null]);
    expect(table.problems[0]!.message).toBe(
      `the cell contains a control character: type it anew, not "${"y".repeat(60)}"`,
    );
  });
});

describe("how a table writes its numbers", () => {
  const style = (cells: readonly string[], delimiter = ";") =>
    numberStyle(
      tableOf(
        cells.map((a) => ({ a, b: "1,5" })),
        delimiter,
      ),
      ["a"],
    );
  const thousands = "write the number with a decimal point (the comma could separate thousands)";

  test.for([
    ["1,5", true],
    ["-0,55", true],
    ["+,5", true],
    ["\u22121,5", true],
    ["0,125", true],
    ["1234,567", true],
    ["1,5e3", true],
    ["1,5E-12", true],
    ["1,5 d", true],
    ["1,25h", true],
    ["1,2345", true],
    ["1,234", false],
    ["123,456", false],
    ["-12,345", false],
    ["5", false],
    ["a,b", false],
    ["1,5 d x", false],
    ["x1,5", false],
    ["1,5,5", false],
  ] as const)("%s says for certain that the comma is a decimal mark: %s", ([cell, certain]) => {
    expect(style([cell])).toEqual(certain ? { decimalMark: "," } : { decimalMark: ".", commaRefused: thousands });
  });

  test.for(["1.5", "-.5", "+1.5", "\u22121.5", "1.5e3", "1.5E+12", "1.5 d", "12.25h"])(
    "%s in any row has the point for all, and its line is told",
    (cell) => {
      for (const cells of [
        ["1,5", cell, "2.5"],
        ["3", cell],
      ]) {
        expect(style(cells)).toEqual({
          decimalMark: ".",
          commaRefused: "write all decimals alike (line 3 has a decimal point)",
        });
      }
    },
  );

  test.for(["a.b", "1.5.2", "x1.5", "1.", "1.5 d 2", "v1.5x2"])("%s is no number with a point", (cell) => {
    expect(style([cell, "1,5"])).toEqual({ decimalMark: "," });
  });

  test("between commas there is only the point, and columns of no number do not count", () => {
    expect(style(["1,5"], ",")).toEqual({
      decimalMark: ".",
      commaRefused: "write a decimal point in a table separated by commas",
    });
    expect(style(["1,5"], "\t")).toEqual({ decimalMark: "," });
    expect(numberStyle(tableOf([{ b: "1.5" }, { a: "1,5" }]), ["a"])).toEqual({ decimalMark: "," });
  });
});

test.for([
  [0, "0d"],
  [1440, "1d"],
  [40320, "28d"],
  [60, "1h"],
  [1500, "25h"],
  [90, "90min"],
  [1441, "1441min"],
] as const)("%d minutes are written %s", ([minutes, text]) => {
  expect(ageText(minutes)).toBe(text);
});

test.for([
  [["a"], ["b"], -1],
  [["b"], ["a"], 1],
  [["a"], ["a"], 0],
  [[2], [10], -1],
  [[10], [2], 1],
  [[null], ["a"], -1],
  [["a"], [null], 1],
  [[null], [null], 0],
  [["a", 2], ["a", 1], 1],
  [["a", null], ["a", 1], -1],
  [["a", 1], ["a"], 1],
  [["a", null], ["a"], 0],
  // By code unit, in every language: capitals before small letters, ä after z.
  [["Z"], ["a"], -1],
  [["ä"], ["z"], 1],
] as const)("the order of %j and %j is %d", ([a, b, order]) => {
  expect(compareKeys(a, b)).toBe(order);
});

test.for([
  [{ source: "s.csv", message: "is wrong" }, "s.csv: is wrong"],
  [{ source: "s.csv", line: 3, message: "is wrong" }, "s.csv, line 3: is wrong"],
  [{ source: "s.csv", column: "mix", message: "is wrong" }, "s.csv, column mix: is wrong"],
  [{ source: "s.csv", line: 3, column: "mix", message: "is wrong" }, "s.csv, line 3, column mix: is wrong"],
] as const)("%j reads %s", ([problem, text]) => {
  expect(problemText(problem)).toBe(text);
});

test("of many names the first five are told", () => {
  const names = ["a", "b", "c", "d", "e", "f", "g"];
  expect(someNames(names.slice(0, 5))).toBe("a, b, c, d, e");
  expect(someNames(names)).toBe("a, b, c, d, e and 2 more");
  expect(someNames(names, { most: 6 })).toBe("a, b, c, d, e, f and 1 more");
  expect(someNames([])).toBe("");
});

test.for([
  ["a.txt", { file: "a.txt" }],
  [".\\x\\a.txt", { file: "x/a.txt" }],
  ["x//./a.txt", { file: "x/a.txt" }],
  ["x/..a.txt", { file: "x/..a.txt" }],
  ["day c:.txt", { file: "day c:.txt" }],
  ["1:a.txt", { file: "1:a.txt" }],
  ["/a.txt", { problem: "the path is absolute: name the file relative to the folder" }],
  ["\\a.txt", { problem: "the path is absolute: name the file relative to the folder" }],
  ["Z:\\a.txt", { problem: "the path is absolute: name the file relative to the folder" }],
  [
    "x/../a.txt",
    { problem: "the path leaves the folder (..): put the file into the folder and name it relative to it" },
  ],
  ["./", { problem: "this names no file" }],
  ["", { problem: "this names no file" }],
  ["a\n.txt", { problem: "the name contains a control character: write the name as the folder lists it" }],
] as const)("the path %j", ([written, found]) => {
  expect(filePath(written)).toEqual(found);
});

const inSheet = { known: sheetColumns, table: "a run sheet", source: "s.csv", line: 4 };

test.for([
  ["filename", "file"],
  ["File_Name", "file"],
  ["name", "file"],
  ["days", "age_d"],
  ["AGE_days", "age_d"],
  ["age_h", "age"],
  ["curing_days", "curing_d"],
  ["cure", "curing"],
  ["Regime", "curing"],
  ["sample", "specimen"],
  ["rep", "replicate"],
  ["mass_mg", "initial_mass_mg"],
  ["comment", "note"],
  ["remark", "note"],
  ["specimn", "specimen"],
  ["sesion", "session"],
])("a column %s was meant to be %s", ([column, meant]) => {
  expect(checkColumns(["file", column!, "mix"], inSheet)).toEqual([
    ...[
      {
        source: "s.csv",
        line: 4,
        column,
        message: `"${column}" is not a column of a run sheet: did you mean ${meant}?`,
      },
    ],
  ]);
});

test("every column of a run sheet is known, and a long unknown one is shown in part", () => {
  const columns =
    "file,mix,curing,curing_d,age_d,age,specimen,replicate,role,blank,session,balance,initial_mass_mg,residue_mg,gas,crucible,note,columns";
  expect(checkColumns(columns.split(","), inSheet)).toEqual([]);
  const [problem] = checkColumns(["q".repeat(70)], inSheet);
  expect(problem!.message).toBe(
    `"${"q".repeat(60)}" is not a column of a run sheet: it knows ${columns.replaceAll(",", ", ")}`,
  );
});
