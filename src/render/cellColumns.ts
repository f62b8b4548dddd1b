import { column } from "./column.ts";
import type { Column } from "./tableInfo.ts";

/** Columns that name the cell of a row, in every table. */
export const cellColumns: Readonly<Record<"mix" | "curing" | "curing_d" | "age_d", Column>> = {
  mix: column.text("Mix", "Mix, as in the run sheet; empty where it names none"),
  curing: column.text("Curing", "How the specimen was cured, as in the run sheet"),
  curing_d: column.number("Days of curing", "How long it was cured so", { unit: "d", minimum: 0 }),
  age_d: column.number("Age", "Age of the specimen when its hydration was stopped or its property measured", {
    unit: "d",
    minimum: 0,
  }),
};
