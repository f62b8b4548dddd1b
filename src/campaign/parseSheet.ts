import { leastMass } from "../massLimits.ts";
import { nearestName } from "../nearestName.ts";
import { newJob } from "../protocol/newJob.ts";
import type { Job, Role } from "../protocol/types.ts";
import { parseColumns } from "../read/parseColumns.ts";
import type { ColumnOverride } from "../read/types.ts";
import { type CellReader, cellReader } from "./cellReader.ts";
import { checkColumns } from "./checkColumns.ts";
import { filePath } from "./filePath.ts";
import { numberStyle } from "./numberStyle.ts";
import { readTimes } from "./readTimes.ts";
import { sheetColumns } from "./sheetColumns.ts";
import { splitSheet } from "./splitSheet.ts";
import type { Problem } from "./types.ts";
import { wrongText } from "./wrongText.ts";

const roles: readonly Role[] = ["specimen", "blank", "binder", "aggregate", "control", "check"];
const numeric = ["curing_d", "age_d", "age", "initial_mass_mg", "residue_mg"];

/**
 * The rows of a run sheet, each checked by itself; what only all rows and the folder can tell is checked by `planRuns`.
 *
 * @param text A table separated by comma, semicolon or tab, with a heading. Columns in any order: `file` (required), `mix`,
 * `curing`, `curing_d`, `age_d` (days) or `age` (with a unit), `specimen` (missing: the row is its own specimen), `replicate`,
 * `role`, `blank`, `session`, `balance`, `initial_mass_mg`, `residue_mg`, `gas`, `crucible`, `note`, `columns`.
 * @param options `name` of the sheet for messages.
 * @returns Rows in the order of the sheet, with null where a cell is empty or wrong, and every problem with its line and column.
 *
 * @example
 * ```ts
 * import { parseSheet } from "tg-hydrates";
 * const { rows, problems } = parseSheet("file,mix,curing,age\na.txt,M1,moist,28d\n", { name: "sheet.csv" });
 * if (problems.length > 0 || rows[0]!.age_min !== 40320) throw new Error("28 days are 40320 minutes");
 * ```
 */
export function parseSheet(text: string, options: { name: string }): { rows: Job[]; problems: Problem[] } {
  const table = splitSheet(text, { name: options.name, known: sheetColumns });
  const { source, problems, columns, heading } = table;
  problems.push(...checkColumns(columns, { known: sheetColumns, table: "a run sheet", source, line: heading }));
  if (!columns.includes("file")) {
    const message = "the run sheet has no column file: add it, with one row per file";
    return { rows: [], problems: [...problems, { source, message }] };
  }
  if (table.rows.length === 0 && problems.length === 0)
    problems.push({ source, message: "the run sheet has no rows: write one row per file" });
  const style = numberStyle(table, numeric);
  const rows = table.rows.flatMap((row) => {
    const job = toJob(cellReader(row, table, style), row.line, style.decimalMark);
    return job === null ? [] : [job];
  });
  return { rows, problems };
}

function toJob(cells: CellReader, line: number, decimalMark: "." | ","): Job | null {
  const written = cells.text("file");
  if (written === null) {
    if (cells.isEmpty("file")) cells.wrong("file", "the row names no file: give it one, or take the row out");
    return null;
  }
  const path = filePath(written);
  if ("problem" in path) {
    cells.wrong("file", `${path.problem}, not ${JSON.stringify(written.slice(0, 200))}`);
    return null;
  }
  const { file } = path;
  const { age_min, curing_d } = readTimes(cells, decimalMark);
  const initial_mass_mg = massOf(cells, "initial_mass_mg");
  const residue_mg = massOf(cells, "residue_mg");
  if (initial_mass_mg !== null && residue_mg !== null && residue_mg > initial_mass_mg) {
    cells.wrong(
      "residue_mg",
      `the residue (${residue_mg} mg) weighs more than the initial mass (${initial_mass_mg} mg)`,
    );
  }
  return newJob(file, {
    mix: cells.text("mix"),
    curing: cells.text("curing"),
    curing_d,
    age_min,
    specimen: cells.text("specimen") ?? file,
    replicate: cells.text("replicate"),
    role: roleOf(cells),
    blank: blankOf(cells),
    session: cells.text("session"),
    balance: cells.text("balance"),
    initial_mass_mg,
    residue_mg,
    gas: cells.text("gas"),
    crucible: cells.text("crucible"),
    note: cells.text("note"),
    columns: columnsOf(cells),
    line,
  });
}

function massOf(cells: CellReader, column: "initial_mass_mg" | "residue_mg"): number | null {
  const mass = cells.number(column, { above: 0, max: 1e6 });
  if (mass === null || mass >= leastMass) return mass;
  cells.wrong(column, `no balance weighs ${mass} mg: correct the number`);
  return null;
}

function roleOf(cells: CellReader): Role {
  const written = cells.text("role");
  if (written === null) return "specimen";
  const role = roles.find((known) => known === written.toLowerCase());
  if (role !== undefined) return role;
  const nearest = nearestName(written, roles);
  const help = nearest === null ? "" : `: did you mean ${nearest}?`;
  cells.wrong(
    "role",
    `the role must be one of ${roles.join(", ")}, not ${JSON.stringify(written.slice(0, 60))}${help}`,
  );
  return "specimen";
}

function blankOf(cells: CellReader): string | null {
  const written = cells.text("blank");
  if (written === null) return null;
  const path = filePath(written);
  if ("file" in path) return path.file;
  cells.wrong("blank", `${path.problem}, not ${JSON.stringify(written.slice(0, 200))}`);
  return null;
}

function columnsOf(cells: CellReader): ColumnOverride[] {
  const written = cells.text("columns");
  if (written === null) return [];
  try {
    return parseColumns(written);
  } catch (error) {
    cells.wrong("columns", wrongText(error));
    return [];
  }
}
