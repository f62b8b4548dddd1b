import { readFileSync } from "node:fs";
import Papa from "papaparse/papaparse.min.js";

/** Rows of a CSV file by column name, as a spreadsheet would read it. */
export function csv(path: string): Record<string, string>[] {
  const text = readFileSync(path, "utf8").trimEnd();
  const { data } = Papa.parse(text, { delimiter: ",", newline: "\n" });
  const [names = [], ...rows] = data;
  return rows.map((cells) => Object.fromEntries(names.map((name, i) => [name, cells[i] ?? ""])));
}
