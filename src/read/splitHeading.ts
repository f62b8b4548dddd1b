import { parseUnit } from "./parseUnit.ts";
import { recogniseName } from "./recogniseName.ts";

/** A heading in its two parts. */
export interface Heading {
  name: string;
  unit: string;
}

/** Longest heading of a column, characters. */
const longest = 200;
const opening = "([{<（［【";
const closing = ")]}>）］】";

/**
 * Splits the heading of a column into name and unit: a unit in brackets, after a slash, a comma or the word "in", or as the
 * last word.
 *
 * @example
 * ```ts
 * splitHeading("Temp./°C"); // { name: "Temp.", unit: "°C" }
 * ```
 */
export function splitHeading(written: string): Heading {
  if (written.length > longest) return { name: `${written.slice(0, longest)}…`, unit: "" };
  const text = written.replace(/^[#;!'"\s]+(?=\S)/, (marks) => (parseUnit(written) === null ? "" : marks)).trim();
  if (parseUnit(text) !== null && /^[([{]/.test(text)) return { name: "", unit: strip(text) };
  return bracketed(text) ?? parted(text) ?? ofPercent(text) ?? { name: text, unit: "" };
}

/** The last bracket that holds a unit; square brackets hold a unit even where it is unknown. */
function bracketed(text: string): Heading | null {
  for (let open = text.length - 1; open >= 0; open--) {
    const kind = opening.indexOf(text[open]!);
    if (kind < 0) continue;
    const close = text.indexOf(closing[kind]!, open);
    if (close < 0) continue;
    const inside = text.slice(open + 1, close).trim();
    const name = `${text.slice(0, open)} ${text.slice(close + 1)}`
      .trim()
      .replace(/[/,:_]$/, "")
      .trim();
    if (name === "" && inside !== "") continue;
    if (parseUnit(inside) !== null || (text[open] === "[" && close === text.length - 1)) return { name, unit: inside };
  }
  return null;
}

/** The longest rest after a slash, a comma, a colon, "in", a blank or an underscore that is a unit: `g/g`, not `g`. */
function parted(text: string): Heading | null {
  for (const { index, 0: mark } of text.matchAll(/\s*[/／,，:]|\s+in\s+|[\s_]+/gi)) {
    const name = text.slice(0, index).trim();
    const rest = text.slice(index + mark.length).trim();
    // Behind a mere blank a single letter is a unit only where the name is a known one: "Temp C", but not "Channel C".
    const sure = rest.length > 1 || !/^[\s_]+$/.test(mark) || recogniseName(name) !== null;
    if (name !== "" && sure && parseUnit(rest) !== null) return { name, unit: strip(rest) };
  }
  return null;
}

/** `Mass%`, `wt.-%`, `% mass`. */
function ofPercent(text: string): Heading | null {
  const parts = /^(\S.*?)[\s.-]*[%％]$|^[%％]\s*(.+)$/.exec(text);
  return parts === null ? null : { name: (parts[1] ?? parts[2])!, unit: "%" };
}

function strip(unit: string): string {
  return unit.replace(/^[([{<（［]\s*|\s*[)\]}>）］]$/g, "");
}
