import { column } from "./column.ts";
import type { Column } from "./tableInfo.ts";

/**
 * The two ends of an interval as columns.
 *
 * @param of What the interval is of.
 * @param options `unit` of both; `level` in %. @default 95
 */
export function intervalColumns(of: string, options: { unit?: string; level?: number } = {}): [Column, Column] {
  const { level = 95, ...unit } = options;
  const end = (side: "Lower" | "Upper"): Column =>
    column.number(
      `${side} end, ${level} %`,
      `${side} end of the ${level} % interval of ${of}; empty where it would be an invention`,
      unit,
    );
  return [end("Lower"), end("Upper")];
}
