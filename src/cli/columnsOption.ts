import { parseColumns } from "../read/parseColumns.ts";
import type { ColumnOverride } from "../read/types.ts";
import { UsageError } from "./usageError.ts";

/** The option `--columns`. */
export function columnsOption(written: string | undefined): ColumnOverride[] {
  if (written === undefined) return [];
  try {
    return parseColumns(written);
  } catch (error) {
    if (error instanceof SyntaxError) throw new UsageError(`--columns: ${error.message}`);
    throw error;
  }
}
