import { nearestName } from "../nearestName.ts";
import { sheetColumns } from "./sheetColumns.ts";
import type { Problem } from "./types.ts";

/** What people call these columns, beyond misspellings. */
const otherNames = new Map([
  ["filename", "file"],
  ["file_name", "file"],
  ["name", "file"],
  ["days", "age_d"],
  ["age_days", "age_d"],
  ["age_h", "age"],
  ["curing_days", "curing_d"],
  ["cure", "curing"],
  ["regime", "curing"],
  ["sample", "specimen"],
  ["rep", "replicate"],
  ["mass_mg", "initial_mass_mg"],
  ["comment", "note"],
  ["remark", "note"],
]);

/** Columns that a run sheet does not know, each with the name that was probably meant. */
export function checkSheetColumns(columns: readonly string[], place: { source: string; line: number }): Problem[] {
  const known: readonly string[] = sheetColumns;
  return columns
    .filter((column) => !known.includes(column))
    .map((column) => {
      const nearest = otherNames.get(column.toLowerCase()) ?? nearestName(column, known);
      const help = nearest === null ? `it knows ${known.join(", ")}` : `did you mean ${nearest}?`;
      const shown = JSON.stringify(column.slice(0, 60));
      return { ...place, column, message: `${shown} is not a column of a run sheet: ${help}` };
    });
}
