import { nearestName } from "../nearestName.ts";
import { parseUnit } from "./parseUnit.ts";
import type { ColumnOverride, Quantity } from "./types.ts";

/** Words a user may write, and what they mean. */
const quantities: Record<string, Quantity> = {
  temperature: "temperature",
  time: "time",
  mass: "mass",
  "mass-percent": "mass-percent",
  "mass-fraction": "mass-fraction",
  "mass-change": "mass-change",
  "mass-change-percent": "mass-change-percent",
  ignore: "other",
};

/** How an override is written, for messages and help. */
export const columnSyntax = "temperature=2:K,mass=4:mg (quantity=column[:unit], column by number or name)";

/**
 * Reads a column override: `quantity=column[:unit]`, several parted by commas or semicolons; a column by its 1-based number or its name, in
 * double quotes where the name holds a comma or a colon. Quantities: temperature, time, mass, mass-percent, mass-fraction,
 * mass-change, mass-change-percent, ignore.
 *
 * @throws SyntaxError that says which part is wrong
 * @example
 * ```ts
 * import { parseColumns } from "tg-hydrates";
 * const [first] = parseColumns('temperature=2:K,mass="Weight, corr."');
 * if (first!.column !== "2" || first!.unit !== "K") throw new Error("the second column holds kelvin");
 * ```
 */
export function parseColumns(text: string): ColumnOverride[] {
  const overrides: ColumnOverride[] = [];
  if (text.length > longest) {
    throw new SyntaxError(`Write columns as ${columnSyntax}, in at most ${longest} characters, not ${text.length}`);
  }
  for (const part of text.match(/(?:"[^"]*"|[^",;])+/g) ?? []) {
    if (part.trim() === "") continue;
    const shown = JSON.stringify(part.trim().slice(0, 60));
    const written = partsOf(part);
    if (written === null) throw new SyntaxError(`Write columns as ${columnSyntax}, not ${shown}`);
    const { word, column, unit } = written;
    const quantity = Object.hasOwn(quantities, word) ? quantities[word] : undefined;
    if (quantity === undefined) {
      const known = Object.keys(quantities);
      const nearest = nearestName(word, known);
      const help = nearest === null ? `use one of ${known.join(", ")}` : `did you mean ${nearest}?`;
      throw new SyntaxError(`${JSON.stringify(word.slice(0, 60))} is no quantity: ${help}`);
    }
    if (overrides.some((other) => other.column === column)) {
      throw new SyntaxError(`Name every column once: ${JSON.stringify(column.slice(0, 60))} stands twice`);
    }
    if (unit !== undefined && parseUnit(unit) === null) {
      throw new SyntaxError(`Name a known unit (°C, K, °F, s, min, h, mg, µg, g, %), not the one in ${shown}`);
    }
    overrides.push({ column, quantity, ...(unit === undefined ? {} : { unit }) });
  }
  return overrides;
}

/** Longest override, characters. */
const longest = 2000;

/** `quantity=column[:unit]` in its parts; null where it is something else. */
function partsOf(part: string): { word: string; column: string; unit: string | undefined } | null {
  const equals = part.indexOf("=");
  const word = part.slice(0, Math.max(equals, 0)).trim();
  const rest = part.slice(equals + 1).trim();
  const [quoted, inside] = /^"([^"]+)"/.exec(rest) ?? [];
  const [column = ""] = quoted === undefined ? rest.split(":", 1) : [inside];
  const behind = rest.slice(quoted === undefined ? column.length : quoted.length).trim();
  const unit = behind.startsWith(":") ? behind.slice(1).trim() : undefined;
  if (!/^[\w-]+$/.test(word) || column.trim() === "" || unit === "" || (unit === undefined && behind !== ""))
    return null;
  if (quoted === undefined && column.includes('"')) return null;
  return { word: word.toLowerCase(), column: quoted === undefined ? column.trim() : column, unit };
}
