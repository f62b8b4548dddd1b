import { ageWords } from "../campaign/ageWords.ts";
import type { Decisions } from "../campaign/decisions.ts";
import { regimeWords } from "../compare/words.ts";
import { decimalsFor, signed } from "./decisionWords.ts";
import { textTable } from "./textTable.ts";

/** Changes of length since the end of moist curing. */
export function lengthText({ properties }: Decisions): string[] {
  const rows = properties.filter(({ since_curing }) => since_curing !== null);
  if (rows.length === 0) return [];
  const columns = [
    { heading: "property" },
    { heading: "mix" },
    { heading: "regime" },
    { heading: "age", align: "right" },
    { heading: "change", align: "right" },
    { heading: "95 % interval" },
  ] as const;
  const halves = rows.map(({ since_curing, since_curing_lo95, since_curing_hi95 }) =>
    since_curing_hi95 === null || since_curing_lo95 === null
      ? Math.abs(since_curing!) / 20
      : (since_curing_hi95 - since_curing_lo95) / 2,
  );
  const decimals = decimalsFor(halves);
  const cells = rows.map((row) => {
    const { since_curing, since_curing_lo95, since_curing_hi95 } = row;
    const interval =
      since_curing_lo95 === null
        ? ""
        : `[${signed(since_curing_lo95, decimals)}, ${signed(since_curing_hi95, decimals)}]`;
    return [
      `${row.property}, ${row.unit}`,
      row.mix ?? "-",
      regimeWords(row),
      ageWords(row.age_d),
      signed(since_curing, decimals),
      interval,
    ];
  });
  return ["CHANGE OF LENGTH SINCE THE END OF MOIST CURING", ...textTable(columns, cells).map((line) => `  ${line}`)];
}
