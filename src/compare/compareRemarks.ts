import { ageWords } from "../campaign/ageWords.ts";
import type { Asked, ContrastRow } from "../campaign/decisions.ts";
import type { ComparedCell } from "./types.ts";
import { regimeWords } from "./words.ts";

/** What could not be compared, counted by its reason, in sentences. */
export function compareRemarks(
  rows: readonly ContrastRow[],
  context: { indices: readonly ComparedCell[]; properties: readonly ComparedCell[]; asked: Asked },
): string[] {
  const { indices, properties, asked } = context;
  const remarks: string[] = [];
  const reasons: Record<string, string> = {
    "one-specimen":
      "one of the two cells has one specimen, whose scatter nobody knows: measure at least two, better three",
    "no-reference": "the reference has no cell at this mix and age",
    "no-value": "no run of the cell has the value",
    "too-few-specimens": "a cell has fewer than three specimens, and its own scatter was asked for",
    "no-scatter": "the specimens do not scatter at all: check that they are not copies of one another",
  };
  for (const [reason, sentence] of Object.entries(reasons)) {
    const own = rows.filter(({ difference_verdict }) => difference_verdict === reason);
    if (own.length === 0) continue;
    const names = own.map(
      (row) =>
        `${row.quantity} of ${row.mix ?? "-"}, ${regimeWords(row)} at ${ageWords(row.age_d)} against ${row.reference}`,
    );
    remarks.push(
      `${own.length} of ${rows.length} comparisons have no verdict (${reason}), since ${sentence}. They are: ${names.slice(0, 3).join("; ")}${names.length > 3 ? ` and ${names.length - 3} more` : ""}.`,
    );
  }
  if (indices.length > 0 && indices.every(({ specimens }) => specimens.length < 2)) {
    remarks.push("No cell has two specimens: how far specimens scatter is not known, and no difference can be judged.");
  }
  if (rows.every(({ against }) => against !== "regime")) {
    remarks.push(`There is no regime besides ${asked.reference}: nothing is held against it.`);
  }
  const ageless = new Set(
    [...indices, ...properties].filter(({ age_d }) => age_d === null).map(({ quantity }) => quantity),
  );
  if (ageless.size > 0) {
    remarks.push("Cells without an age are held against the reference without an age, and left out of growth.");
  }
  return remarks;
}
