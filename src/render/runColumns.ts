import { cellColumns } from "./cellColumns.ts";
import { column } from "./column.ts";
import type { Column } from "./tableInfo.ts";

type Name = "file" | keyof typeof cellColumns | "specimen" | "replicate";

/** Columns that name the run of a row, in every table that has rows of runs. */
export const runColumns: Readonly<Record<Name, Column>> = {
  file: column.text("File", "File of the run, relative to the folder of the runs", { required: true }),
  ...cellColumns,
  specimen: column.text(
    "Specimen",
    "Specimen the run was made on; named after the file where the run sheet names none",
    {
      required: true,
    },
  ),
  replicate: column.text("Replicate", "Which aliquot of the specimen; aliquots are averaged before anything else"),
};
