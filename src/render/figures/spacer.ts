import type { View } from "./page.ts";

/** Nothing, this high: room for the axis of the view above, or the place of a view that a row lacks. */
export function spacer(height: number, width = 1): View {
  return { width, height, data: { values: [{}] }, mark: { type: "point", opacity: 0, size: 0 } };
}
