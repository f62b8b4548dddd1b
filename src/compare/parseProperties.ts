import { type CellReader, cellReader } from "../campaign/cellReader.ts";
import { checkColumns } from "../campaign/checkColumns.ts";
import { numberStyle } from "../campaign/numberStyle.ts";
import { readTimes } from "../campaign/readTimes.ts";
import { splitSheet } from "../campaign/splitSheet.ts";
import type { Problem } from "../campaign/types.ts";
import { isLengthChange, type PropertyUnit, propertyUnit, unitsLike } from "./propertyUnits.ts";
import type { PropertyRow } from "./types.ts";

const known = ["mix", "curing", "curing_d", "age_d", "age", "property", "value", "unit", "specimen", "note"] as const;
const required = ["property", "value", "unit"] as const;

/** No property is larger, in whatever unit: what is could not be squared any more. */
const LARGEST = 1e15;

/**
 * A table of properties: one row per measured value.
 *
 * @param text A table separated by comma, semicolon or tab, with a heading. Columns in any order: `mix`, `curing`, `curing_d`, `age_d`
 * (days) or `age` (with a unit), `property`, `value`, `unit` (the last three required), `specimen`, `note`. Without a specimen every
 * row is one of its own. Specimens called by a bare number or a letter are counted within their cell; one of another name that comes back
 * at another age is the same piece, measured again.
 * @param options `name` of the table for messages.
 * @returns Values in the unit of the first row of their property: MPa, N/mm², psi and other stresses convert into one another, and so
 * do microstrain, mm/m, µm/m and, for a change of length, %. A unit that does not convert is a problem with its line.
 *
 * @example
 * ```ts
 * import { parseProperties } from "tg-hydrates";
 * const text = "mix,curing,age_d,property,value,unit\nM1,moist,28,strength,40,MPa\nM1,air,28,strength,5000,psi\n";
 * const { rows, problems } = parseProperties(text, { name: "properties.csv" });
 * if (problems.length > 0 || Math.abs(rows[1]!.value - 34.47379) > 1e-5) throw new Error("5000 psi are 34.47 MPa");
 * ```
 */
export function parseProperties(text: string, options: { name: string }): { rows: PropertyRow[]; problems: Problem[] } {
  const table = splitSheet(text, { name: options.name, known });
  const { source, problems, columns, heading } = table;
  problems.push(...checkColumns(columns, { known, table: "a table of properties", source, line: heading }));
  const absent = required.filter((column) => !columns.includes(column));
  if (absent.length > 0) {
    const message = `the table of properties has no column ${absent.join(", no column ")}: it needs mix, curing, curing_d, age_d, property, value, unit`;
    return { rows: [], problems: [...problems, { source, message }] };
  }
  if (table.rows.length === 0 && problems.length === 0) {
    problems.push({ source, message: "the table of properties has no rows: write one row per measured value" });
  }
  const style = numberStyle(table, ["curing_d", "age_d", "age", "value"]);
  const read = table.rows.flatMap((row) => {
    const cells = cellReader(row, table, style);
    const found = readRow(cells, row.line, style.decimalMark);
    return found === null ? [] : [{ ...found, cells }];
  });
  // Whether % is a strain is known only from all rows of the property.
  const strains = new Set(
    read.flatMap(({ property, unit }) => (propertyUnit(unit, { length: false }).kind === "strain" ? [property] : [])),
  );
  const firstUnit = new Map<string, PropertyUnit & { line: number; written: string }>();
  const rows = read.flatMap(({ cells, ...row }): PropertyRow[] => {
    const unit = propertyUnit(row.unit, { length: strains.has(row.property) || isLengthChange(row.property) });
    const first = firstUnit.get(row.property) ?? { ...unit, line: row.line, written: row.unit };
    firstUnit.set(row.property, first);
    if (unit.kind !== first.kind) {
      const like = unitsLike(first);
      const help = like.length > 0 ? `give it in one of ${like.join(", ")}` : `write it in ${first.written}`;
      const message = `${row.property} is in ${first.written} (line ${first.line}), and ${JSON.stringify(row.unit)} does not convert into that: ${help}, or give the property another name`;
      cells.wrong("unit", message);
      return [];
    }
    return [
      {
        ...row,
        value: unit.unit === first.unit ? row.value : (row.value * unit.factor) / first.factor,
        unit: first.unit,
      },
    ];
  });
  problems.push(...checkPlaces(rows, source), ...checkSpellings(rows, source));
  return { rows, problems };
}

function readRow(cells: CellReader, line: number, decimalMark: "." | ","): PropertyRow | null {
  const texts = required.map((column) => {
    const written = cells.text(column);
    if (written === null && cells.isEmpty(column)) {
      const what = {
        property: "the row names no property: give it one, such as strength",
        value: "the row has no value: give it one, or take the row out",
        unit: "the value has no unit: give it one, such as MPa, psi, microstrain or %; 1 for a plain number",
      };
      cells.wrong(column, what[column]);
    }
    return written;
  });
  const value = texts[1] === null ? null : cells.number("value", { min: -LARGEST, max: LARGEST });
  const { age_min, curing_d } = readTimes(cells, decimalMark);
  const [property, , unit] = texts;
  if (property === null || property === undefined || unit === null || unit === undefined || value === null) return null;
  return {
    mix: cells.text("mix"),
    curing: cells.text("curing"),
    curing_d,
    age_min,
    property,
    specimen: cells.text("specimen") ?? `line ${line}`,
    value,
    unit,
    line,
  };
}

/** A named specimen is one piece: it has one mix and one curing. */
function checkPlaces(rows: readonly PropertyRow[], source: string): Problem[] {
  const first = new Map<string, PropertyRow>();
  return rows.flatMap((row) => {
    if (/^(?:\d{1,3}|[a-z])$/i.test(row.specimen)) return [];
    const key = JSON.stringify([row.property, row.specimen]);
    const before = first.get(key);
    if (before === undefined) first.set(key, row);
    const differing = (["mix", "curing", "curing_d"] as const).filter(
      (column) => before && before[column] !== row[column],
    );
    if (differing.length === 0) return [];
    const message = `the specimen ${JSON.stringify(row.specimen)} has another ${differing.join(", ")} in line ${before!.line}: give each specimen its own name, or number the specimens of each cell 1, 2, 3`;
    return [{ source, line: row.line, column: "specimen", message }];
  });
}

/** Properties that differ in capitals only would be kept apart in silence. */
function checkSpellings(rows: readonly PropertyRow[], source: string): Problem[] {
  const first = new Map<string, PropertyRow>();
  const reported = new Set<string>();
  return rows.flatMap(({ property, line }) => {
    const before = first.get(property.toLowerCase());
    if (before === undefined) first.set(property.toLowerCase(), { property, line } as PropertyRow);
    if (before === undefined || before.property === property || reported.has(property)) return [];
    reported.add(property);
    const message = `${JSON.stringify(property)} and ${JSON.stringify(before.property)} (line ${before.line}) differ in capitals only: write both alike`;
    return [{ source, line, column: "property", message }];
  });
}
