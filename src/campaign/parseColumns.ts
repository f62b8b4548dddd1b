import { nearestName } from "../nearestName.ts";
import type { ColumnOverride, Quantity } from "../read/types.ts";

const quantities: Record<Quantity, true> = {
  temperature: true,
  "programme-temperature": true,
  "furnace-temperature": true,
  "reference-temperature": true,
  time: true,
  mass: true,
  "mass-percent": true,
  "mass-fraction": true,
  "mass-change": true,
  "mass-change-percent": true,
  derivative: true,
  "heat-flow": true,
  index: true,
  other: true,
};

/**
 * Columns of a file named by hand, where they cannot be inferred.
 *
 * @param text `quantity=column [unit]`, several separated by semicolons; the column is its name or its 1-based number and
 * the unit may be left out: `temperature=2 [K]; mass=weight [mg]`.
 * @throws SyntaxError that says which part is wrong.
 *
 * @example
 * ```ts
 * import { parseColumns } from "tg-hydrates";
 * const [first] = parseColumns("temperature=2 [K]; mass=3");
 * if (first!.column !== "2" || first!.unit !== "K") throw new Error("the second column holds kelvin");
 * ```
 */
export function parseColumns(text: string): ColumnOverride[] {
  const overrides: ColumnOverride[] = [];
  for (const part of text.split(";")) {
    if (part.trim() === "") continue;
    const shown = JSON.stringify(part.trim().slice(0, 60));
    const at = part.indexOf("=");
    if (at < 0) throw new SyntaxError(`Write columns as quantity=column [unit], such as mass=3 [mg], not ${shown}`);
    const quantity = part.slice(0, at).trim().toLowerCase();
    if (!isQuantity(quantity)) {
      const known = Object.keys(quantities);
      const nearest = nearestName(quantity, known);
      const help = nearest === null ? `: use one of ${known.join(", ")}` : `: did you mean ${nearest}?`;
      throw new SyntaxError(`${JSON.stringify(quantity.slice(0, 60))} is no quantity${help}`);
    }
    const { column, unit } = columnAndUnit(part.slice(at + 1).trim());
    if (column === "") throw new SyntaxError(`Name the column of ${quantity}, or give its number, not ${shown}`);
    if (overrides.some((other) => other.column === column)) {
      throw new SyntaxError(`Name every column once: ${JSON.stringify(column.slice(0, 60))} stands twice`);
    }
    overrides.push({ column, quantity, ...(unit === "" ? {} : { unit }) });
  }
  return overrides;
}

function isQuantity(name: string): name is Quantity {
  return Object.hasOwn(quantities, name);
}

/** The unit stands in the last square brackets. */
function columnAndUnit(text: string): { column: string; unit: string } {
  const open = text.endsWith("]") ? text.lastIndexOf("[") : -1;
  if (open < 0) return { column: text, unit: "" };
  return { column: text.slice(0, open).trim(), unit: text.slice(open + 1, -1).trim() };
}
