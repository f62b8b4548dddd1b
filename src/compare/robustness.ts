import type { ContrastRow } from "../campaign/decisions.ts";
import type { Campaign } from "../campaign/types.ts";
import type { Rule } from "../losses/types.ts";
import { SHIFT } from "../protocol/shiftedIndices.ts";
import type { WindowResult } from "../protocol/types.ts";
import { cellKey } from "./cellKey.ts";
import { type ContrastOptions, contrasts } from "./contrasts.ts";
import { indexCells, type PickIndex } from "./indexCells.ts";
import type { ComparedCell, Margins } from "./types.ts";

type Shifted = keyof WindowResult["index_shifted"];

const edges: [string, Shifted][] = [
  [`from-${SHIFT}`, "from_down"],
  [`from+${SHIFT}`, "from_up"],
  [`to-${SHIFT}`, "to_down"],
  [`to+${SHIFT}`, "to_up"],
];
const rules = ["step", "area", "tangent"] as const;

/**
 * Whether the verdicts survive a window that is put a little differently, or counted by another rule: every contrast of an index is
 * made again with each edge moved by 5 °C and by the other rules, under its own scatter, and both verdicts are compared.
 *
 * A margin in g per 100 g is scaled with the reference's value, since another rule has another size. The other errors of a
 * shifted index are taken to be those of the index.
 *
 * @param rows Contrasts of the campaign's indices, from `contrasts` under the same options.
 * @returns The rows with `robust`, `sensitive_to` and `untested`; rows of properties and rows without a verdict as they are.
 */
export function robustness(
  rows: readonly ContrastRow[],
  campaign: Pick<Campaign, "runs" | "protocol">,
  options: ContrastOptions & { cells: readonly ComparedCell[] },
): ContrastRow[] {
  const windows = campaign.protocol.windows;
  const found = new Map<string, { sensitive_to: string[]; untested: string[]; tried: number }>();
  for (const { name, rule } of windows) {
    const own = rows.filter(({ quantity, p }) => quantity === name && p !== null);
    if (own.length === 0) continue;
    for (const [variant, pick] of variantsOf(rule)) {
      const cells = indexCells(campaign, { pick, windows: [name] });
      const complete = cells.filter((cell) => sameSpecimens(cell, options.cells));
      const margins = scaledMargins(options, { cells: complete, nominal: options.cells, window: name });
      // In a family of the whole campaign the others stay what they are.
      const others = options.family === "campaign" ? options.cells.filter(({ quantity }) => quantity !== name) : [];
      const again = contrasts([...complete, ...others], { ...options, margins, coarse: true }).rows;
      const byKey = new Map(again.map((row) => [keyOf(row), row]));
      // A rule that the protocol does not define is no choice that was left out.
      if (variant === "tangent" && cells.every(({ value }) => value === null)) continue;
      for (const row of own) {
        const key = keyOf(row);
        const state = found.get(key) ?? { sensitive_to: [], untested: [], tried: 0 };
        found.set(key, state);
        const other = byKey.get(key);
        if (other === undefined || other.p === null) state.untested.push(variant);
        else {
          state.tried++;
          const changed = changedVerdicts(row, other);
          if (changed.length > 0) state.sensitive_to.push(`${variant} (${changed.join(", ")})`);
        }
      }
    }
  }
  return rows.map((row) => {
    const state = found.get(keyOf(row));
    if (state === undefined) return row;
    const { sensitive_to, untested, tried } = state;
    const robust = sensitive_to.length > 0 ? "no" : tried > 0 ? "yes" : "not tested";
    return { ...row, robust, sensitive_to, untested };
  });
}

function variantsOf(own: Rule): [string, PickIndex][] {
  const shifted = edges.map(([name, edge]): [string, PickIndex] => [
    name,
    ({ index_shifted, index }) => {
      const value = index_shifted[edge];
      return value === null || "missing" in index ? null : { value, terms: index.terms };
    },
  ]);
  const others = rules
    .filter((rule) => rule !== own)
    .map((rule): [string, PickIndex] => [
      rule,
      (window) => {
        const index = window[`index_${rule}`];
        return "missing" in index ? null : index;
      },
    ]);
  return [...shifted, ...others];
}

/** Fewer specimens than the index itself would change more than the window. */
function sameSpecimens(cell: ComparedCell, nominal: readonly ComparedCell[]): boolean {
  const key = JSON.stringify(cellKey(cell));
  const own = nominal.find((one) => one.quantity === cell.quantity && JSON.stringify(cellKey(one)) === key);
  return own !== undefined && own.specimens.length === cell.specimens.length;
}

function scaledMargins(
  { margins = [] }: ContrastOptions,
  { cells, nominal, window }: { cells: readonly ComparedCell[]; nominal: readonly ComparedCell[]; window: string },
): Margins {
  const size = (all: readonly ComparedCell[]): number => {
    const keys = new Set(cells.map((cell) => JSON.stringify(cellKey(cell))));
    return all
      .filter((cell) => cell.quantity === window && keys.has(JSON.stringify(cellKey(cell))))
      .reduce((sum, { value }) => sum + Math.abs(value ?? 0), 0);
  };
  const scale = size(cells) / size(nominal);
  if (!(scale > 0 && Number.isFinite(scale))) return margins;
  return margins.map((margin) =>
    margin.quantity === window && margin.kind === "value" ? { ...margin, size: margin.size * scale } : margin,
  );
}

function changedVerdicts(a: ContrastRow, b: ContrastRow): string[] {
  return [
    ...(a.difference_verdict === b.difference_verdict ? [] : ["difference"]),
    ...(a.equivalence_verdict === b.equivalence_verdict ? [] : ["equivalence"]),
  ];
}

function keyOf(row: ContrastRow): string {
  return JSON.stringify([row.quantity, row.against, row.reference, ...cellKey(row)]);
}
