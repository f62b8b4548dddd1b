import { UnreadableError } from "../errors.ts";
import { columnList } from "./columnList.ts";
import { describeColumn } from "./describeColumn.ts";
import type { Meaning } from "./meaningOf.ts";
import type { Table } from "./types.ts";

/** Mass in `unit` = factor · written + offset. */
export interface MassScale {
  unit: "mg" | "%";
  factor: number;
  offset: number;
}

/**
 * How the written mass becomes mg, or % of the initial mass where no absolute mass is known. With a known initial mass shares
 * and changes become mg.
 *
 * @throws UnreadableError `no-initial-mass` for a change in mg where the initial mass is unknown
 */
export function massScale(
  table: Table,
  columns: Meaning[],
  { at, initialMass }: { at: number; initialMass: number | null },
): MassScale {
  const column = columns[at]!;
  const factor = column.known?.factor ?? 1;
  const whole = initialMass ?? 100;
  const unit = initialMass === null ? "%" : "mg";
  switch (column.quantity) {
    case "mass":
      return { unit: "mg", factor, offset: 0 };
    case "mass-percent":
    case "mass-fraction":
      return { unit, factor: initialMass === null ? factor : (factor * whole) / 100, offset: 0 };
    case "mass-change-percent":
      return { unit, factor: (sign(column, table.values[at]!) * factor * whole) / 100, offset: whole };
    default: {
      if (initialMass === null) {
        const message = `Column ${describeColumn(column)} is a change of mass, and the file does not state the initial mass. Give it as initial_mass_mg in the run sheet. ${columnList(columns)}`;
        throw new UnreadableError("no-initial-mass", message, { source: table.source.name, column: column.number });
      }
      return { unit: "mg", factor: sign(column, table.values[at]!) * factor, offset: initialMass };
    }
  }
}

/** A loss may be written as a growing positive number; a change is taken as it stands. */
function sign({ change }: Meaning, values: Float64Array): 1 | -1 {
  if (change === "change") return 1;
  let sum = 0;
  for (const value of values) if (!Number.isNaN(value)) sum += value;
  return sum > 0 ? -1 : 1;
}
