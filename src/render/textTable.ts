import { textWidth } from "./textWidth.ts";

/** Width that a column may take before its text is left as it is. */
export interface TextColumn {
  heading: string;
  /** @default "left" */
  align?: "left" | "right";
}

/**
 * Rows as aligned lines for a terminal, two blanks between columns; a column in which every cell is empty is left out.
 *
 * @param columns Headings with their alignment.
 * @param rows As many cells as columns.
 */
export function textTable(columns: readonly TextColumn[], rows: readonly (readonly string[])[]): string[] {
  const used = columns.map((_, i) => rows.some((row) => row[i] !== ""));
  const widths = columns.map(({ heading }, i) =>
    Math.max(textWidth(heading), ...rows.map((row) => textWidth(row[i]!))),
  );
  const line = (cells: readonly string[]): string =>
    cells
      .flatMap((cell, i) => {
        if (!used[i]) return [];
        const blanks = " ".repeat(widths[i]! - textWidth(cell));
        return [columns[i]!.align === "right" ? blanks + cell : cell + blanks];
      })
      .join("  ")
      .trimEnd();
  return [line(columns.map(({ heading }) => heading)), ...rows.map(line)];
}
