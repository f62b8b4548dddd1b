import type { AgeRow } from "../../campaign/types.ts";
import { type CellRows, cellRows } from "./cellRows.ts";
import { figureLabel } from "./figureLabel.ts";
import { type KeyItem, keyStrip } from "./keyStrip.ts";
import { type PageOptions, page, type View } from "./page.ts";
import type { RegimeLook } from "./regimesOf.ts";
import { spacer } from "./spacer.ts";
import { textPx } from "./textPx.ts";
import type { Theme } from "./theme.ts";
import type { FigureSpec, Json } from "./types.ts";

/** Cells as rows, and a panel for each window. */
export interface CellPanels extends Pick<PageOptions, "title" | "alt"> {
  theme: Theme;
  cells: readonly Pick<AgeRow, "curing" | "curing_d" | "age_d">[];
  windows: readonly string[];
  looks: ReadonlyMap<string, RegimeLook>;
  key: readonly KeyItem[];
  /** Room right of each panel, px. */
  beside: number;
  /** Layers of the panel of a window. */
  draw: (window: string, place: { rows: CellRows; length: number }) => Json[];
}

/** Panels side by side with the names of the rows before the first of each line of panels. */
export function cellPanels({ theme, cells, windows, looks, key, beside, draw, title, alt }: CellPanels): FigureSpec {
  const rows = cellRows(cells, looks, theme);
  const wanted = theme.width < 400 ? 2 : 3;
  const columns = Math.max(1, Math.min(wanted, windows.length));
  const gap = 12 + beside;
  const length = Math.max(30, Math.floor((theme.width - rows.left - 10 - beside - gap * (columns - 1)) / columns));
  const heading = theme.line + 4;
  const panels: View[] = windows.map((window, i) => ({
    width: length,
    height: rows.height,
    layer: [
      ...draw(window, { rows, length }),
      {
        data: { values: [{ w: shortened(window, length + beside, theme.font) }] },
        mark: { type: "text", align: "left", baseline: "bottom", fontWeight: "bold" },
        encoding: { x: { value: 0 }, y: { value: -5 }, text: { field: "w", type: "nominal" } },
      },
      ...(i % columns === 0 ? rows.names : []),
    ],
  }));
  while (panels.length % columns !== 0) panels.push(spacer(rows.height, length));
  const axis = theme.font * 2.6 + 10;
  return page([...panels, keyStrip(key, theme, { width: theme.width - 12, left: rows.left - 6 })], {
    theme,
    title,
    alt,
    columns,
    row: axis + heading,
    column: gap,
    left: rows.left,
    top: heading + 4,
    bottom: 5,
  });
}

function shortened(window: string, width: number, font: number): string {
  return figureLabel(window, Math.max(6, Math.floor(width / textPx("m", font))));
}
