import type { CellReader } from "./cellReader.ts";
import { parseAge } from "./parseAge.ts";
import { wrongText } from "./wrongText.ts";

/** 100 years: no hydration study is longer. */
const LONGEST_D = 36525;

/** Age and days of curing of a row; null where a cell is empty or wrong, which is noted with the row. */
export function readTimes(
  cells: CellReader,
  decimalMark: "." | ",",
): { age_min: number | null; curing_d: number | null } {
  const age_min = ageOf(cells, decimalMark);
  const curing_d = cells.number("curing_d", { min: 0, max: LONGEST_D });
  if (curing_d !== null && age_min !== null && Math.round(curing_d * 1440) > age_min) {
    const age = Number((age_min / 1440).toPrecision(6));
    cells.wrong("curing_d", `curing lasts longer (${curing_d} d) than the age (${age} d): correct one of them`);
  }
  return { age_min, curing_d };
}

function ageOf(cells: CellReader, decimalMark: "." | ","): number | null {
  const days = cells.number("age_d", { min: 0, max: LONGEST_D });
  const fromDays = days === null ? null : Math.round(days * 1440);
  const written = cells.text("age");
  if (written === null) return fromDays;
  try {
    const age = parseAge(decimalMark === "," ? written.replace(",", ".") : written);
    if (fromDays === null || fromDays === age) return age;
    cells.wrong("age", `age (${written}) and age_d (${days}) differ: correct one, or leave one empty`);
  } catch (error) {
    cells.wrong("age", wrongText(error));
  }
  return null;
}
