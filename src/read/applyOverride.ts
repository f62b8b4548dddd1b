import { UnreadableError } from "../errors.ts";
import { columnList } from "./columnList.ts";
import { type Meaning, massQuantities, temperatureQuantities } from "./meaningOf.ts";
import { parseUnit } from "./parseUnit.ts";
import type { ColumnOverride, Quantity } from "./types.ts";

const kinds: Quantity[][] = [temperatureQuantities, massQuantities, ["time"]];
/** What a quantity is written in where neither the user nor the heading says. */
const usual: Partial<Record<Quantity, string>> = {
  "mass-percent": "%",
  "mass-change-percent": "%",
  "mass-fraction": "g/g",
};

/**
 * The columns with one of them named by the user: by its number, or by its name in any case of letters. What the user names is
 * the only one of its kind.
 *
 * @throws UnreadableError `unknown-column`, `unknown-unit`
 */
export function applyOverride(columns: Meaning[], override: ColumnOverride, source: string): Meaning[] {
  const wanted = override.column.trim().toLowerCase();
  const byName = columns.filter(({ name, unit }) =>
    [name, `${name} [${unit}]`].some((title) => title.toLowerCase() === wanted),
  );
  const found = byName.length > 0 ? byName : columns.filter(({ number }) => String(number) === wanted);
  const column = found[0];
  if (column === undefined || found.length > 1) {
    const what = column === undefined ? "There is no column" : `There are ${found.length} columns`;
    throw new UnreadableError("unknown-column", `${what} "${override.column}". ${columnList(columns)}`, { source });
  }
  const unit = override.unit ?? (column.unit === "" ? (usual[override.quantity] ?? "") : column.unit);
  const known = parseUnit(unit);
  const quantity = sharpened(override.quantity, known?.dimension);
  if (unit !== "" && (known === null || !suits(quantity, known.dimension))) {
    const message = `The unit "${unit}" of column ${column.number} is none of ${quantity}. Use °C, K, °F, s, min, h, mg, µg, g, % or g/g.`;
    throw new UnreadableError("unknown-unit", message, { source, column: column.number });
  }
  const kind = kinds.find((quantities) => quantities.includes(quantity)) ?? [];
  return columns.map((other) => {
    if (other === column) {
      const { reason: _, ...rest } = other;
      return { ...rest, quantity, by: "override", known, unit };
    }
    return other.by !== "override" && kind.includes(other.quantity) ? { ...other, quantity: "other" } : other;
  });
}

/** `mass` in % is mass-percent, in g/g mass-fraction; a change in % likewise. */
function sharpened(quantity: Quantity, dimension: string | undefined): Quantity {
  const relative = dimension === "percent" || dimension === "fraction";
  if (quantity === "mass" && relative) return dimension === "percent" ? "mass-percent" : "mass-fraction";
  return quantity === "mass-change" && relative ? "mass-change-percent" : quantity;
}

function suits(quantity: Quantity, dimension: string): boolean {
  if (quantity.endsWith("temperature")) return dimension === "temperature";
  if (quantity === "time") return dimension === "time";
  if (quantity === "mass" || quantity === "mass-change") return dimension === "mass";
  if (massQuantities.includes(quantity)) return dimension === "percent" || dimension === "fraction";
  return true;
}
