import { type Flag, flag } from "../flags.ts";
import type { Window } from "../losses/types.ts";
import type { Measured } from "../measured.ts";
import type { ShiftedIndices } from "./types.ts";

/** An edge whose shift by 5 °C changes the index by more than this share stands on a slope. */
const STEEP = 0.05;

/** The edges of a window whose place matters, beyond twice the uncertainty of the index. */
export function steepEdges({ name, from_C, to_C }: Window, index: Measured, shifted: ShiftedIndices): Flag[] {
  if ("missing" in index) return [];
  const edges = [
    { T: from_C, down: shifted.from_down, up: shifted.from_up },
    { T: to_C, down: shifted.to_down, up: shifted.to_up },
  ];
  return edges.flatMap(({ T, down, up }) => {
    const changes = [down, up].flatMap((moved) => (moved === null ? [] : [Math.abs(moved - index.value)]));
    const largest = Math.max(...changes, 0);
    if (largest <= STEEP * Math.abs(index.value) || largest <= 2 * (index.u ?? 0)) return [];
    const share = (100 * largest) / Math.abs(index.value);
    const part = share <= 100 ? `${share.toFixed(0)} % of the index` : "more than the index itself";
    const sentence = `5 °C of the edge at ${T} °C of the window ${name} are ${largest.toFixed(2)} g per 100 g, ${part}.`;
    return [flag("steep-edge", sentence, name)];
  });
}
