/// <reference path="../papaparse.d.ts" />
import Papa from "papaparse/papaparse.min.js";
import { formulaCell } from "../formulaCell.ts";
import { ageText } from "./ageText.ts";
import type { DraftRow } from "./types.ts";

/** A drafted run sheet as CSV, with the columns a person most likely fills in. */
export function draftText(rows: readonly DraftRow[]): string {
  const fields = [
    "file",
    "mix",
    "curing",
    "curing_d",
    "age",
    "specimen",
    "replicate",
    "role",
    "blank",
    "session",
    "note",
  ];
  const data = rows.map((row) => [
    row.file,
    row.mix ?? "",
    row.curing ?? "",
    row.curing_d === null ? "" : String(Number(row.curing_d.toPrecision(9))),
    row.age_min === null ? "" : ageText(row.age_min),
    row.specimen ?? "",
    row.replicate ?? "",
    row.role,
    "",
    "",
    row.label === null ? "" : `label ${row.label}`,
  ]);
  return `${Papa.unparse({ fields, data }, { newline: "\n", escapeFormulae: formulaCell }).trimEnd()}\n`;
}
