import { ageWords } from "../../campaign/ageWords.ts";
import type { CellKey } from "../../protocol/types.ts";
import { channel } from "./channel.ts";
import { type RegimeLook, regimeKey } from "./regimesOf.ts";
import { textPx } from "./textPx.ts";
import type { Theme } from "./theme.ts";
import type { Json } from "./types.ts";

/** Cells as rows of a figure, from top to bottom in the given order. */
export interface CellRows {
  /** Space that the names take left of the plot, px. */
  left: number;
  height: number;
  /** Height of one row, px. */
  step: number;
  /** The vertical channel; data give the row's number as `r`. */
  y: Json;
  /** Name of regime, at its first row, and age, to be drawn left of the plot. */
  names: Json[];
}

/** Lays out cells as rows: regime named once, then the ages. */
export function cellRows(
  cells: readonly Pick<CellKey, "curing" | "curing_d" | "age_d">[],
  looks: ReadonlyMap<string, RegimeLook>,
  { font }: Theme,
): CellRows {
  const rows = cells.map((cell, r) => {
    const before = cells[r - 1];
    const first = before === undefined || regimeKey(before) !== regimeKey(cell);
    return { r, g: first ? looks.get(regimeKey(cell))!.label : "", a: ageWords(cell.age_d) };
  });
  const regimes = Math.max(0, ...rows.map(({ g }) => textPx(g, font)));
  const left = Math.ceil(regimes + Math.max(0, ...rows.map(({ a }) => textPx(a, font))) + 16);
  const step = Math.round(font * 1.45 * 10) / 10;
  const y = channel("r", { domain: [-0.5, Math.max(1, rows.length) - 0.5], reverse: true });
  const text = (field: string, x: number, align: string): Json => ({
    data: { values: rows.filter((row) => row[field as "g" | "a"] !== "") },
    mark: { type: "text", align, baseline: "middle" },
    encoding: { x: { value: x }, y, text: { field, type: "nominal" } },
  });
  return {
    left,
    height: Math.max(1, rows.length) * step,
    step,
    y,
    names: [text("g", 4 - left, "left"), text("a", -6, "right")],
  };
}
