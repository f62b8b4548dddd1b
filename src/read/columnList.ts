import { describeColumn } from "./describeColumn.ts";
import { columnSyntax } from "./parseColumns.ts";
import type { UnderstoodColumn } from "./types.ts";

/** Columns that are listed. */
const most = 40;

/** The columns seen and how to name them, for messages. */
export function columnList(columns: UnderstoodColumn[]): string {
  const seen = columns
    .slice(0, most)
    .map((column) => describeColumn(column) + (column.reason === undefined ? "" : ` (${column.reason})`));
  if (columns.length > most) seen.push(`and ${columns.length - most} more`);
  return `Columns seen: ${seen.join(", ")}. Name them with --columns, or in the column "columns" of the run sheet: ${columnSyntax}.`;
}
