import { theoreticalLosses } from "../chemistry/theoreticalLosses.ts";
import type { ExampleMix } from "./exampleDesign.ts";
import type { TruthRow } from "./exampleTruth.ts";

/** Run sheet, mix table, properties and truth of an example as CSV, by file name. */
export function exampleTables(parts: {
  /** Heading and rows of the run sheet. */
  sheet: readonly (readonly string[])[];
  mixes: readonly ExampleMix[];
  /** Heading and rows of the properties. */
  properties: readonly (readonly string[])[];
  truth: readonly TruthRow[];
}): Record<"sheet.csv" | "mixes.csv" | "properties.csv" | "truth.csv", string> {
  const { sheet, mixes, properties, truth } = parts;
  return {
    "sheet.csv": csv(sheet),
    "mixes.csv": csv(mixTable(mixes)),
    "properties.csv": csv(properties),
    "truth.csv": csv(truthTable(truth)),
  };
}

function mixTable(mixes: readonly ExampleMix[]): string[][] {
  const heading =
    "mix,w_b,loi_binder_pct,u_loi_binder_pct,yeelimite_pct,belite_pct,gypsum_pct,anhydrite_pct,limestone_pct";
  return [
    heading.split(","),
    ...mixes.map(({ mix, w_b, yeelimite, belite, gypsum, anhydrite, limestone }) => {
      const loi =
        (gypsum * theoreticalLosses("gypsum").totalPct + limestone * theoreticalLosses("calcite").totalPct) / 100;
      return [mix, `${w_b}`, loi.toFixed(3), "0.05", ...[yeelimite, belite, gypsum, anhydrite, limestone].map(String)];
    }),
  ];
}

function truthTable(truth: readonly TruthRow[]): string[][] {
  const columns = Object.keys(truth[0]!) as (keyof TruthRow)[];
  const cell = (value: TruthRow[keyof TruthRow]) =>
    value === null ? "" : typeof value === "number" ? `${Number(value.toPrecision(9))}` : value;
  return [columns, ...truth.map((row) => columns.map((column) => cell(row[column])))];
}

/** No cell of the example holds a comma or a quotation mark, so none is quoted. */
function csv(rows: readonly (readonly string[])[]): string {
  return rows.map((cells) => `${cells.join(",")}\n`).join("");
}
