import { nearestName } from "../nearestName.ts";
import type { Problem } from "./types.ts";

/** What people call columns, beyond misspellings. */
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

/**
 * Columns that a table does not know, each with the name that was probably meant.
 *
 * @param options `known`: the columns there are; `table`: what it is called; `source` and `line` of its heading.
 */
export function checkColumns(
  columns: readonly string[],
  options: { known: readonly string[]; table: string; source: string; line: number },
): Problem[] {
  const { known, table, source, line } = options;
  return columns
    .filter((column) => !known.includes(column))
    .map((column) => {
      const meant = otherNames.get(column.toLowerCase());
      const nearest = meant !== undefined && known.includes(meant) ? meant : nearestName(column, known);
      const help = nearest === null ? `it knows ${known.join(", ")}` : `did you mean ${nearest}?`;
      const shown = JSON.stringify(column.slice(0, 60));
      return { source, line, column, message: `${shown} is not a column of ${table}: ${help}` };
    });
}
