import type { CellKind } from "./types.ts";

/** Whether a cell can stand in a column. */
export function fits(cell: string, column: CellKind): boolean {
  if (cell === column || cell === "missing" || column === "text") return true;
  return (column === "empty" && cell === "number") || (column === "clock" && cell === "short-clock");
}
