import type { ComparedCell } from "./types.ts";

/** Specimens called by a bare number or one letter are counted within their cell: specimen 1 of every age is another one. */
const countedWithinCell = /^(?:\d{1,3}|[a-z])$/i;

/**
 * Values of the specimens that two cells have in common, since one piece was measured at both ages (length change): pairs of
 * (cell, reference). Strength has none, its specimens are broken.
 */
export function commonSpecimens(
  cell: Pick<ComparedCell, "specimens">,
  reference: Pick<ComparedCell, "specimens">,
): [number, number][] {
  const known = new Map(reference.specimens.map(({ specimen, value }) => [specimen, value]));
  return cell.specimens.flatMap(({ specimen, value }): [number, number][] => {
    const other = countedWithinCell.test(specimen) ? undefined : known.get(specimen);
    return other === undefined ? [] : [[value, other]];
  });
}
