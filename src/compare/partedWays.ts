import { ageWords } from "../campaign/ageWords.ts";
import type { ContrastRow, PartedRow } from "../campaign/decisions.ts";
import type { Window } from "../losses/types.ts";
import { cellKey } from "./cellKey.ts";
import { isLengthChange, propertyUnit } from "./propertyUnits.ts";
import { listWords, regimeWords } from "./words.ts";

/** Up to here what leaves is taken for water of hydrates; above for carbon dioxide (common practice, no source), °C. */
const HYDRATES_TO_C = 600;

/** Whether what leaves in a window is taken for water of hydrates. */
export function windowIsHydrate({ to_C }: Pick<Window, "to_C">): boolean {
  return to_C <= HYDRATES_TO_C;
}

/**
 * Cells in which the hydrates and a property say different things against the reference: more hydrate and no more strength shown,
 * strength lost without a shown loss of hydrate, and so on. Each with a sentence that claims no more than its verdicts.
 *
 * @param contrasts Rows against a regime, of indices and properties.
 * @param windows Of the protocol; only those below 600 °C are hydrates. Indices that nobody found are passed over.
 */
export function partedWays(
  contrasts: readonly ContrastRow[],
  windows: readonly Pick<Window, "name" | "to_C">[],
): PartedRow[] {
  const hydrates = new Set(windows.filter(windowIsHydrate).map(({ name }) => name));
  const names = new Set(windows.map(({ name }) => name));
  const rows = contrasts.filter(({ against, p }) => against === "regime" && p !== null);
  const properties = rows.filter(({ quantity }) => !names.has(quantity));
  // Where there is no share the reference is not shown to differ from zero: without a difference nothing was found there at all.
  const found = ({ ratio_pct, difference_verdict }: ContrastRow) =>
    ratio_pct !== null || difference_verdict !== "not shown";
  const indices = rows.filter((row) => hydrates.has(row.quantity) && found(row));
  return properties.flatMap((property) => {
    const key = JSON.stringify(cellKey(property));
    const own = indices.filter((index) => JSON.stringify(cellKey(index)) === key);
    return (["lower", "higher", "not shown"] as const).flatMap((verdict) => {
      const group = own.filter(({ difference_verdict }) => difference_verdict === verdict);
      const sentence = group.length === 0 ? null : sentenceOf(group, property);
      if (sentence === null) return [];
      const { mix, curing, curing_d, age_d, reference } = property;
      const row: PartedRow = {
        ...{ mix, curing, curing_d, age_d, property: property.quantity },
        quantities: group.map(({ quantity }) => quantity),
        reference,
        index_verdict: verdict,
        property_verdict: property.difference_verdict,
        property_equivalence: property.equivalence_verdict,
        sentence,
      };
      return [row];
    });
  });
}

/** @param indices Of one cell, with one verdict. */
function sentenceOf(indices: readonly ContrastRow[], property: ContrastRow): string | null {
  const a = indices[0]!.difference_verdict;
  const b = property.difference_verdict;
  if (a === b) return null;
  // More hydrate is expected to go with more strength; which way a length should go nobody says.
  const strength = propertyUnit(property.unit, { length: isLengthChange(property.quantity) }).kind === "stress";
  const where = `${property.mix ?? "-"}, ${regimeWords(property)} at ${ageWords(property.age_d)} against ${property.reference}`;
  const hydrates = listWords(indices.map(named));
  const more = a === "lower" ? "less" : "more";
  if (a !== "not shown" && b !== "not shown") {
    return strength ? `${where}: ${more} ${hydrates}, yet ${b} ${named(property)}.` : null;
  }
  if (b === "not shown") {
    const missing = strength ? `no ${a}` : "no other";
    return `${where}: ${more} ${hydrates}, but ${missing} ${named(property)} was shown${standing(property)}.`;
  }
  const missing = strength ? (b === "lower" ? "no loss" : "no gain") : "no difference";
  const within = indices.every(({ equivalence_verdict }) => equivalence_verdict === "within margin");
  const also = within ? `, which ${indices.length === 1 ? "stays" : "stay"} within the stated margin` : "";
  return `${where}: ${b} ${named(property)}, but ${missing} of ${hydrates} was shown${also}.`;
}

/** `strength (78 %)`. */
function named({ quantity, ratio_pct }: ContrastRow): string {
  return ratio_pct === null ? quantity : `${quantity} (${ratio_pct.toFixed(0)} %)`;
}

/** What the other verdict adds to "not shown". */
function standing({ equivalence_verdict }: ContrastRow): string {
  if (equivalence_verdict === "within margin") return ": it stays within the stated margin";
  if (equivalence_verdict === "outside margin") return ", though it lies outside the stated margin";
  return "; that it is the same is not shown either";
}
