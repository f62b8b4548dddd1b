import { expect, test } from "vitest";
import { readCell } from "../../src/read/readCell.ts";

test.for([
  ["12.5", ".", 12.5],
  ["12,5", ",", 12.5],
  ["-0.25", ".", -0.25],
  ["+7", ".", 7],
  [".5", ".", 0.5],
  ["25.", ".", 25],
  ["1.5e3", ".", 1500],
  ["1,5E-03", ",", 0.0015],
  ["2.5D+02", ".", 250],
  ["1,234.5", ".", 1234.5],
  ["1.234,5", ",", 1234.5],
  ["1'234.5", ".", 1234.5],
  ["1’234’567", ".", 1234567],
  ["1 234,5", ",", 1234.5],
  ["1\u00a0234,5", ",", 1234.5],
  ["1\u202f234,5", ",", 1234.5],
  ["\u22125.5", ".", -5.5],
  ["–5,5", ",", -5.5],
  ["１２．５", ".", 12.5],
  ["20.5 mg", ".", 20.5],
  ["25°C", ".", 25],
  ["99,8 %", ",", 99.8],
] as const)("%s with the decimal mark %s is %d", ([text, mark, value]) => {
  expect(readCell(text, mark)).toMatchObject({ kind: "number", value });
});

test.for([
  "",
  "-",
  "--",
  "—",
  "…",
  "n/a",
  "NA",
  "N.A.",
  "n.d.",
  "NaN",
  "-nan",
  "nan",
  "inf",
  "-Infinity",
  "null",
  "#N/A",
  "#DIV/0!",
  "***",
  "?",
  "-1.#IND",
  "1.#QNAN",
  "overflow",
])("'%s' means that the value is missing", (text) => {
  expect(readCell(text, ".")).toMatchObject({ kind: "missing", value: Number.NaN });
});

test.for([
  "abc",
  "1,5",
  "1.2.3",
  "1,23,456",
  "12,34.5",
  "0x1f",
  "1e",
  "e5",
  "1 2",
  "5 apples",
  "--5",
  "1e5.5",
  "+",
  "25:70:00",
  "31.31.2031",
])("'%s' is text where the decimal mark is a point", (text) => {
  expect(readCell(text, ".").kind).toBe("text");
});

test.for([
  ["00:00:07", "clock", 7],
  ["1:02:03", "clock", 3723],
  ["01:02:03.25", "clock", 3723.25],
  ["01:02:03,5", "clock", 3723.5],
  ["26:00:00", "clock", 93_600],
  ["1.02:00:00", "clock", 93_600],
  ["12:30:00 AM", "clock", 1800],
  ["01:00:00 pm", "clock", 46_800],
  ["12:00:00 p.m.", "clock", 43_200],
  ["02:30", "short-clock", 150],
  ["90:15", "short-clock", 5415],
] as const)("the clock %s is a %s of %d s", ([text, kind, value]) => {
  expect(readCell(text, ".")).toMatchObject({ kind, value });
});

test.for([
  // Seconds between two times of one clock, by the calendar.
  ["2031-02-28 23:59:00", "2031-03-01 00:01:00", 120],
  ["28.02.2032 12:00:00", "29.02.2032 12:00:00", 86_400],
  ["2031-05-01T10:00:00Z", "2031-05-01T10:00:30.5Z", 30.5],
  ["2031/05/01 10:00", "2031/05/01 11:30", 5400],
  ["05/14/2031 01:00:00", "05/14/2031 01:00:01", 1],
] as const)("from %s to %s are %d s", ([from, to, seconds]) => {
  const [a, b] = [readCell(from, "."), readCell(to, ".")];
  expect([a.kind, b.kind]).toEqual(["date", "date"]);
  expect(b.value - a.value).toBe(seconds);
});

test.for([
  ["12.50", 2, false],
  ["12", 0, false],
  ["1.250E+01", 2, true],
  ["1.250e-3", 6, true],
  ["4E2", -2, true],
  ["1,234.50", 2, false],
] as const)("the last digit of %s has the weight 10^-%d", ([text, decimals, scientific]) => {
  expect(readCell(text, ".")).toMatchObject({ decimals, scientific });
});
