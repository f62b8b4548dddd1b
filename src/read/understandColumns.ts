import { applyOverride } from "./applyOverride.ts";
import { behaviourOf } from "./behaviourOf.ts";
import { chooseColumn } from "./chooseColumn.ts";
import { guessColumns } from "./guessColumns.ts";
import { guessUnits } from "./guessUnits.ts";
import { type Meaning, massQuantities, meaningOf, temperatureQuantities } from "./meaningOf.ts";
import { parseUnit } from "./parseUnit.ts";
import { refineMass } from "./refineMass.ts";
import type { ColumnOverride, Table } from "./types.ts";

/** All columns, and which of them the run is made of (indices). */
export interface Understanding {
  columns: Meaning[];
  temperature: number;
  mass: number;
  time: number | null;
  /** What was guessed, in sentences. */
  guesses: string[];
}

/**
 * Gives every column its quantity: by the user's word, else by name, else by unit, else by behaviour; and chooses temperature,
 * mass and time of the run. The sample's temperature goes before the furnace's, the reference's and the programme's; mass in
 * mg before a change of mass, shares and changes of shares.
 *
 * @param options.initialMassKnown a change of mass can be turned into mass
 * @throws UnreadableError `ambiguous-columns`, `no-temperature`, `no-mass`, `unknown-column`, `unknown-unit`
 */
export function understandColumns(
  table: Table,
  options: { overrides?: ColumnOverride[]; initialMassKnown?: boolean } = {},
): Understanding {
  const { overrides = [], initialMassKnown = false } = options;
  const source = table.source.name;
  let columns = table.columns.map((column, i): Meaning => {
    const known = parseUnit(column.unit);
    // Words and empty cells are no quantity, whatever their heading says.
    const said = isMeasured(table.cells[i]!) ? meaningOf(column.name, known) : meaningOf("", null);
    return { ...column, ...said, known };
  });
  for (const override of overrides) columns = applyOverride(columns, override, source);
  const behaviours = table.values.map((values) => () => behaviourOf(values));
  const said: string[] = [];
  columns = guessColumns(columns, table.cells, behaviours);
  columns = guessUnits(columns, table.cells, behaviours);
  columns = refineMass(columns, table.values);
  const temperature = chooseColumn(columns, temperatureQuantities, { table, what: "temperature" });
  const rest = massQuantities.filter((quantity) => quantity !== "mass-change");
  const order = initialMassKnown ? massQuantities : [...rest, "mass-change" as const];
  const mass = chooseColumn(columns, order, { table, what: "mass" });
  const time = columns.findIndex(({ quantity, unit, known }) => quantity === "time" && (unit === "" || known !== null));
  const chosen = [temperature, mass, ...(time < 0 ? [] : [time])].map((i) => columns[i]!);
  for (const { number, quantity, reason, confidence } of chosen) {
    if (confidence !== undefined) {
      said.push(`Column ${number} is taken as ${quantity.replaceAll("-", " ")}: ${reason} (confidence ${confidence}).`);
    }
  }
  const { quantity, number } = columns[temperature]!;
  if (quantity !== "temperature") {
    said.push(
      `The file has no temperature of the sample; the ${quantity.replace("-", " ")} (column ${number}) stands for it.`,
    );
  }
  return { columns, temperature, mass, time: time < 0 ? null : time, guesses: said };
}

function isMeasured(kind: string): boolean {
  return kind !== "text" && kind !== "empty";
}
