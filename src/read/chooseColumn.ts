import { UnreadableError } from "../errors.ts";
import { columnList } from "./columnList.ts";
import { describeColumn } from "./describeColumn.ts";
import type { Meaning } from "./meaningOf.ts";
import type { Quantity, Table } from "./types.ts";

/** Rivals that are named in a message. */
const mostShown = 12;

/**
 * The column of the best kind there is: the user's before the sample's own, a named one before one known by its unit, one
 * with a unit before one without.
 *
 * @returns its index
 * @throws UnreadableError `ambiguous-columns` where two are equally good and differ, `no-temperature`, `no-mass`,
 * `unknown-unit`
 */
export function chooseColumn(
  columns: Meaning[],
  order: Quantity[],
  { table, what }: { table: Table; what: "temperature" | "mass" },
): number {
  const place = { source: table.source.name };
  for (const quantity of order) {
    const all = columns.flatMap((column, i) => (column.quantity === quantity ? [i] : []));
    const best = Math.max(...all.map((i) => standing(columns[i]!)));
    const [first, ...others] = all.filter((i) => standing(columns[i]!) === best);
    if (first === undefined) continue;
    const chosen = columns[first]!;
    if (chosen.known === null && chosen.unit !== "") {
      const message = `The unit of column ${describeColumn(chosen)} is not known. ${columnList(columns)}`;
      throw new UnreadableError("unknown-unit", message, { ...place, column: chosen.number });
    }
    if (others.every((i) => isSame(table.values[first]!, chosen, table.values[i]!, columns[i]!))) return first;
    const shown = [first, ...others].slice(0, mostShown).map((i) => describeColumn(columns[i]!));
    const rivals = `${shown.join(", ")}${others.length >= mostShown ? ", …" : ""}`;
    const message = `${others.length + 1} columns can be the ${what}: ${rivals}. ${columnList(columns)}`;
    throw new UnreadableError("ambiguous-columns", message, place);
  }
  throw new UnreadableError(`no-${what}`, `No column can be told to be the ${what}. ${columnList(columns)}`, place);
}

function standing({ by, ofSample, known }: Meaning): number {
  const rank = { override: 8, name: 4, unit: 2, behaviour: 1, none: 0 }[by];
  return 4 * rank + (ofSample ? 2 : 0) + (known === null ? 0 : 1);
}

/** Whether two columns are one quantity, perhaps in two units, within a few digits of what they carry. */
function isSame(a: Float64Array, ofA: Meaning, b: Float64Array, ofB: Meaning): boolean {
  const convert = (value: number, { known }: Meaning): number => value * (known?.factor ?? 1) + (known?.offset ?? 0);
  for (let i = 0; i < a.length; i++) {
    const one = convert(a[i]!, ofA);
    const other = convert(b[i]!, ofB);
    if (Math.abs(one - other) > 1e-4 * Math.max(Math.abs(one), Math.abs(other), 1)) return false;
  }
  return true;
}
