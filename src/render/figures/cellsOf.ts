import type { AgeRow, Campaign } from "../../campaign/types.ts";
import { cellKey } from "../../compare/cellKey.ts";

/** The cells of a mix in the order of ages.csv, and its windows in the order of the protocol. */
export function cellsOf(
  { ages, protocol }: Pick<Campaign, "ages" | "protocol">,
  mix: string | null,
): { cells: AgeRow[]; windows: string[]; find: (cell: AgeRow, window: string) => AgeRow | undefined } {
  const own = ages.filter((row) => row.mix === mix);
  if (own.length === 0) throw new RangeError(`Name a mix of the campaign, not ${mix}`);
  const keyed = new Map(own.map((row) => [JSON.stringify([cellKey(row), row.window]), row]));
  const first = new Map<string, AgeRow>();
  for (const row of own) {
    const key = JSON.stringify(cellKey(row));
    if (!first.has(key)) first.set(key, row);
  }
  const present = new Set(own.map(({ window }) => window));
  return {
    cells: [...first.values()],
    windows: protocol.windows.map(({ name }) => name).filter((name) => present.has(name)),
    find: (cell, window) => keyed.get(JSON.stringify([cellKey(cell), window])),
  };
}
