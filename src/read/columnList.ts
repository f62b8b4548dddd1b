import { columnSyntax } from "./parseColumns.ts";
import type { TableColumn, UnderstoodColumn } from "./types.ts";

/** The columns seen and how to name them, for messages. */
export function columnList(columns: UnderstoodColumn[]): string {
  const seen = columns.map(
    (column) => describeColumn(column) + (column.reason === undefined ? "" : ` (${column.reason})`),
  );
  return `Columns seen: ${seen.join(", ")}. Name them with --columns, or in the column "columns" of the run sheet: ${columnSyntax}.`;
}

/** A column as a person would point at it: `2 "Temp." [°C]`. */
export function describeColumn({ number, name, unit }: TableColumn): string {
  return `${number}${name === "" ? "" : ` "${name}"`}${unit === "" ? "" : ` [${unit}]`}`;
}
