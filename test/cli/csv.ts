import { readFileSync } from "node:fs";
import Papa from "papaparse";

/** Rows of a CSV file by column name, as a spreadsheet would read it. */
export function csv(path: string): Record<string, string>[] {
  return Papa.parse<Record<string, string>>(readFileSync(path, "utf8"), { header: true, skipEmptyLines: true }).data;
}
