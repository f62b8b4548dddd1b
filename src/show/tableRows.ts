import type { Table } from "../read/types.ts";
import type { Row } from "./gridOf.ts";

/** The first rows of a table in the file's own words; a cell that holds no number is empty. */
export function tableRows({ columns, values, lines }: Table, options: { rows: number }): Row[] {
  const names = columns.map(
    ({ number, name, unit }) => `${name === "" ? number : name}${unit === "" ? "" : ` [${unit}]`}`,
  );
  return Array.from({ length: Math.min(options.rows, lines.length) }, (_, i) => {
    const cells = values.map((column, k): [string, number | null] => {
      const value = column[i]!;
      return [
        names.indexOf(names[k]!) < k ? `${names[k]} (${k + 1})` : names[k]!,
        Number.isFinite(value) ? value : null,
      ];
    });
    return Object.fromEntries([["line", lines[i]!], ...cells]);
  });
}
