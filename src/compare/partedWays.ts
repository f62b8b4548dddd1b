import { ageText } from "../campaign/ageText.ts";
import type { ContrastRow, PartedRow } from "../campaign/decisions.ts";
import type { Window } from "../losses/types.ts";
import { cellKey } from "./cellKey.ts";
import { regimeText } from "./regimeText.ts";

/** Up to here what leaves is taken for water of hydrates; above for carbon dioxide (common practice, no source), °C. */
const HYDRATES_TO_C = 600;

/**
 * Cells in which the hydrate and the property say different things against the reference: more hydrate and no more strength shown,
 * strength lost without a shown loss of hydrate, and so on. Each with a sentence that claims no more than its verdicts.
 *
 * @param contrasts Rows against a regime, of indices and properties.
 * @param windows Of the protocol; only those below 600 °C are hydrates.
 */
export function partedWays(
  contrasts: readonly ContrastRow[],
  windows: readonly Pick<Window, "name" | "to_C">[],
): PartedRow[] {
  const hydrates = new Set(windows.filter(windowIsHydrate).map(({ name }) => name));
  const names = new Set(windows.map(({ name }) => name));
  const rows = contrasts.filter(({ against }) => against === "regime");
  const indices = rows.filter(({ quantity }) => hydrates.has(quantity));
  const properties = rows.filter(({ quantity }) => !names.has(quantity));
  return properties.flatMap((property) =>
    indices.flatMap((index) => {
      if (JSON.stringify(cellKey(index)) !== JSON.stringify(cellKey(property))) return [];
      const sentence = sentenceOf(index, property);
      if (sentence === null) return [];
      const { mix, curing, curing_d, age_d, reference } = index;
      return [
        {
          ...{ mix, curing, curing_d, age_d, property: property.quantity, quantity: index.quantity, reference },
          index_verdict: index.difference_verdict,
          property_verdict: property.difference_verdict,
          property_equivalence: property.equivalence_verdict,
          sentence,
        },
      ];
    }),
  );
}

/** Whether what leaves in a window is taken for water of hydrates. */
export function windowIsHydrate({ to_C }: Pick<Window, "to_C">): boolean {
  return to_C <= HYDRATES_TO_C;
}

function sentenceOf(index: ContrastRow, property: ContrastRow): string | null {
  const shown = (verdict: string) => verdict === "lower" || verdict === "higher";
  const a = index.difference_verdict;
  const b = property.difference_verdict;
  if (!(shown(a) || a === "not shown") || !(shown(b) || b === "not shown")) return null;
  if (a === b) return null;
  const age = index.age_d === null ? "unknown age" : ageText(Math.round(index.age_d * 1440));
  const where = `${index.mix ?? "-"}, ${regimeText(index)} at ${age} against ${index.reference}`;
  const of = (row: ContrastRow) =>
    `${row.quantity}${row.ratio_pct === null || row.ratio_pct < 0 ? "" : ` (${row.ratio_pct.toFixed(0)} %)`}`;
  const more = { lower: "less", higher: "more" } as const;
  if (shown(a) && shown(b)) {
    return `${where}: ${more[a as "lower"]} ${of(index)}, yet ${b} ${of(property)}.`;
  }
  if (b === "not shown") {
    const also =
      property.equivalence_verdict === "within margin"
        ? `, which stays within the stated margin`
        : property.equivalence_verdict === "outside margin"
          ? ", though the stated margin is exceeded"
          : "; that it is the same is not shown either";
    return `${where}: ${more[a as "lower"]} ${of(index)}, but no ${a} ${of(property)} was shown${also}.`;
  }
  const also = index.equivalence_verdict === "within margin" ? ", which stays within the stated margin" : "";
  return `${where}: ${b} ${of(property)}, but no ${b === "lower" ? "loss" : "gain"} of ${of(index)} was shown${also}.`;
}
