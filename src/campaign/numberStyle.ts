import type { NumberStyle } from "./cellReader.ts";
import type { SheetTable } from "./splitSheet.ts";

const pointDecimal = /^[-+\u2212]?\d*\.\d+(?:e[-+]?\d+)?\s*[a-z]*$/i;
const commaDecimal = /^[-+\u2212]?\d*,\d+(?:e[-+]?\d+)?\s*[a-z]*$/i;
/** A thousands separator cannot be told from a decimal mark here; after a leading zero it can. */
const ambiguous = /^[-+\u2212]?[1-9]\d{0,2},\d{3}$/;

/**
 * Whether a table writes decimals with a comma. Only where semicolons or tabs separate the cells, no number has a decimal
 * point, and at least one comma cannot separate thousands; otherwise commas are refused with the reason.
 *
 * @param columns The columns that hold numbers.
 */
export function numberStyle(table: SheetTable, columns: readonly string[]): NumberStyle {
  if (table.delimiter === ",") {
    return { decimalMark: ".", commaRefused: "write a decimal point in a table separated by commas" };
  }
  let certain = false;
  let pointLine: number | null = null;
  for (const { cells, line } of table.rows) {
    for (const column of columns) {
      const cell = cells.get(column) ?? "";
      if (pointDecimal.test(cell)) pointLine ??= line;
      else if (commaDecimal.test(cell) && !ambiguous.test(cell)) certain = true;
    }
  }
  if (pointLine !== null) {
    const refused = `write all decimals alike (line ${pointLine} has a decimal point)`;
    return { decimalMark: ".", commaRefused: refused };
  }
  if (certain) return { decimalMark: "," };
  return {
    decimalMark: ".",
    commaRefused: "write the number with a decimal point (the comma could separate thousands)",
  };
}
