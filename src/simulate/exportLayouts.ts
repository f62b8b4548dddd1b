import type { ExportLayout } from "./formatExport.ts";

/** Invented ways to write one and the same table; they differ in everything a reader has to find out by itself. */
export const exportLayouts: Record<"tabs" | "semicolons" | "commas" | "blanks" | "wide" | "percent", ExportLayout> = {
  /** Tabs, decimal point, units behind the names, UTF-8. */
  tabs: {
    encoding: "utf-8",
    delimiter: "\t",
    decimalMark: ".",
    lineEnd: "\n",
    headings: "name (unit)",
    columns: [
      { quantity: "time", name: "Time", unit: "s", decimals: 1 },
      { quantity: "temperature", name: "Sample temperature", unit: "°C", decimals: 2 },
      { quantity: "mass", name: "Mass", unit: "mg", decimals: 4 },
    ],
  },
  /** Semicolons, decimal comma, units in a row of their own, windows-1252. */
  semicolons: {
    encoding: "windows-1252",
    delimiter: ";",
    decimalMark: ",",
    lineEnd: "\r\n",
    headings: "unit row",
    columns: [
      { quantity: "temperature", name: "Temperatur", unit: "°C", decimals: 2 },
      { quantity: "time", name: "Zeit", unit: "min", decimals: 3 },
      { quantity: "mass", name: "Masse", unit: "mg", decimals: 4 },
    ],
    trailingDelimiter: true,
  },
  /** Commas, kelvin and grams, a byte order mark. */
  commas: {
    encoding: "utf-8",
    byteOrderMark: true,
    delimiter: ",",
    decimalMark: ".",
    lineEnd: "\r\n",
    headings: "name [unit]",
    columns: [
      { quantity: "index", name: "Point", unit: "", decimals: 0 },
      { quantity: "time", name: "Elapsed time", unit: "min", decimals: 3 },
      { quantity: "temperature", name: "Temperature", unit: "K", decimals: 2 },
      { quantity: "mass", name: "Weight", unit: "g", decimals: 7 },
    ],
  },
  /** Blanks, mass in µg, a programme column beside the sample's temperature. */
  blanks: {
    encoding: "utf-8",
    delimiter: " ",
    decimalMark: ".",
    lineEnd: "\n",
    headings: "unit row",
    columns: [
      { quantity: "time", name: "t", unit: "s", decimals: 1 },
      { quantity: "programme-temperature", name: "T program", unit: "°C", decimals: 2 },
      { quantity: "temperature", name: "T sample", unit: "°C", decimals: 2 },
      { quantity: "mass", name: "mass", unit: "µg", decimals: 1 },
    ],
  },
  /** UTF-16, tabs, decimal comma, hours. */
  wide: {
    encoding: "utf-16le",
    byteOrderMark: true,
    delimiter: "\t",
    decimalMark: ",",
    lineEnd: "\r\n",
    headings: "name/unit",
    columns: [
      { quantity: "time", name: "Time", unit: "h", decimals: 6 },
      { quantity: "temperature", name: "Temperature", unit: "°C", decimals: 2 },
      { quantity: "mass", name: "Mass", unit: "mg", decimals: 4 },
      { quantity: "derivative", name: "Mass rate", unit: "%/min", decimals: 4 },
    ],
  },
  /** Mass in % of the initial mass only. */
  percent: {
    encoding: "utf-8",
    delimiter: ",",
    decimalMark: ".",
    lineEnd: "\n",
    headings: "name (unit)",
    columns: [
      { quantity: "temperature", name: "Temperature", unit: "°C", decimals: 2 },
      { quantity: "mass-percent", name: "Mass", unit: "%", decimals: 4 },
    ],
  },
};
