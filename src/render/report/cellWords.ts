import { ageWords } from "../../campaign/ageWords.ts";
import { regimeWords } from "../../compare/words.ts";
import type { CellKey } from "../../protocol/types.ts";

/** `M1, cloth 1 d at 28 d`. */
export function cellWords(cell: CellKey): string {
  return `${cell.mix ?? "no mix named"}, ${regimeWords(cell)} at ${ageWords(cell.age_d)}`;
}
