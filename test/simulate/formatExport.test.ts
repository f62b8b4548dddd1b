import { describe, expect, test } from "vitest";
import { encodeText } from "../../src/simulate/encodeText.ts";
import { exportLayouts } from "../../src/simulate/exportLayouts.ts";
import { type ExportColumn, type ExportLayout, formatExport } from "../../src/simulate/formatExport.ts";
import type { SimulatedRun } from "../../src/simulate/types.ts";

/** Three readings with round numbers. */
const run: SimulatedRun = {
  model: { sample_mg: 20, reactions: [], programme: { start_C: 25, segments: [] } },
  time_s: Float64Array.of(0, 90, 180),
  temperature_C: Float64Array.of(25, 40.126, 55),
  mass_mg: Float64Array.of(20, 19.98766, 19),
  true_temperature_C: Float64Array.of(25, 40, 55),
  true_mass_mg: Float64Array.of(20, 20, 19),
};

const plain: ExportLayout = {
  encoding: "utf-8",
  delimiter: "\t",
  decimalMark: ".",
  lineEnd: "\n",
  headings: "none",
  columns: [],
};
const text = (layout: ExportLayout) => Buffer.from(formatExport(run, layout)).toString("utf8");
const column = (quantity: ExportColumn["quantity"], unit: string, decimals: number): string[] =>
  text({ ...plain, columns: [{ quantity, name: "x", unit, decimals }] })
    .trimEnd()
    .split("\n");

test.for([
  ["index", "", 0, ["1", "2", "3"]],
  ["time", "s", 0, ["0", "90", "180"]],
  ["time", "min", 1, ["0.0", "1.5", "3.0"]],
  ["time", "h", 3, ["0.000", "0.025", "0.050"]],
  ["temperature", "°C", 2, ["25.00", "40.13", "55.00"]],
  ["temperature", "K", 2, ["298.15", "313.28", "328.15"]],
  ["temperature", "°F", 1, ["77.0", "104.2", "131.0"]],
  ["programme-temperature", "°C", 0, ["25", "40", "55"]],
  ["mass", "mg", 4, ["20.0000", "19.9877", "19.0000"]],
  ["mass", "µg", 0, ["20000", "19988", "19000"]],
  ["mass", "g", 6, ["0.020000", "0.019988", "0.019000"]],
  ["mass-change", "mg", 3, ["0.000", "-0.012", "-1.000"]],
  ["mass-percent", "%", 2, ["100.00", "99.94", "95.00"]],
  ["mass-change-percent", "%", 2, ["0.00", "-0.06", "-5.00"]],
  ["mass-fraction", "", 3, ["1.000", "0.999", "0.950"]],
  ["derivative", "%/min", 3, ["-0.041", "-1.667", "-3.292"]],
] as const)("%s in %s with %i decimals", ([quantity, unit, decimals, expected]) => {
  expect(column(quantity, unit, decimals)).toEqual(expected);
});

test("headings, preamble, footer, decimal comma and line ends stand where the layout says", () => {
  const layout: ExportLayout = {
    ...plain,
    delimiter: ";",
    decimalMark: ",",
    lineEnd: "\r\n",
    headings: "unit row",
    preamble: ["Specimen: 7", ""],
    footer: ["end"],
    trailingDelimiter: true,
    columns: [
      { quantity: "time", name: "Zeit", unit: "min", decimals: 1 },
      { quantity: "mass", name: "Masse", unit: "mg", decimals: 3, exponent: true },
    ],
  };
  expect(text(layout)).toBe(
    "Specimen: 7\r\n\r\nZeit;Masse;\r\nmin;mg;\r\n0,0;2,000E+1;\r\n1,5;1,999E+1;\r\n3,0;1,900E+1;\r\nend\r\n",
  );
});

test("columns that are aligned by blanks keep their number of cells", () => {
  const lines = text(exportLayouts.blanks).trimEnd().split("\n");
  expect(lines[0]!.trim().split(/\s+/)).toHaveLength(4);
  expect(new Set(lines.map((line) => [...line].length)).size).toBe(1);
});

test("every invented layout writes one line per reading below its headings", () => {
  for (const [name, layout] of Object.entries(exportLayouts)) {
    const decoded = new TextDecoder(layout.encoding).decode(formatExport(run, layout));
    const headings = layout.headings === "unit row" ? 2 : 1;
    expect(decoded.trimEnd().split(layout.lineEnd), name).toHaveLength(headings + 3);
  }
});

test.for([
  [
    { ...plain, columns: [{ quantity: "mass", name: "Mass", unit: "lb", decimals: 1 }] },
    'Choose a unit of mg, µg, ug, g for the column "Mass", not "lb"',
  ],
  [
    { ...plain, delimiter: ",", decimalMark: "," },
    "Choose another delimiter: commas cannot both end the cells and mark the decimals",
  ],
] as [ExportLayout, string][])("%j is refused", ([layout, message]) => {
  expect(() => formatExport(run, layout)).toThrow(new RangeError(message));
});

describe("bytes of a text", () => {
  const words = "T/°C; Masse µg – 100 €\n";
  test("in UTF-8 are those of Node's own encoder, beyond the basic plane too", () => {
    const wide = `${words}θ ← 𝛼`;
    expect(Buffer.from(encodeText(wide, "utf-8"))).toEqual(Buffer.from(wide, "utf8"));
  });

  test("in UTF-16 are those of Node's own encoder, with the mark in front", () => {
    expect(Buffer.from(encodeText(words, "utf-16le", { byteOrderMark: true }))).toEqual(
      Buffer.from(`\uFEFF${words}`, "utf16le"),
    );
    expect(Buffer.from(encodeText(words, "utf-16be"))).toEqual(Buffer.from(words, "utf16le").swap16());
  });

  test("in windows-1252 are those of the WHATWG Encoding Standard", () => {
    // Index windows-1252: € is 0x80, – is 0x96, ° is 0xB0, µ is 0xB5, Ÿ is 0x9F, ž is 0x9E.
    expect([...encodeText("€–°µŸžA", "windows-1252")]).toEqual([0x80, 0x96, 0xb0, 0xb5, 0x9f, 0x9e, 0x41]);
  });

  test("that the encoding does not have are refused", () => {
    expect(() => encodeText("θ", "windows-1252")).toThrow(
      new RangeError('Choose another encoding: windows-1252 has no character "θ"'),
    );
    expect(() => encodeText("a", "windows-1252", { byteOrderMark: true })).toThrow(RangeError);
  });
});
