import { UnreadableError } from "../errors.ts";
import type { Text } from "./openText.ts";
import { readCell } from "./readCell.ts";
import { sampleLines } from "./sampleLines.ts";

/** Texts that are something else, by how they begin (their published grammars). */
const others: [RegExp, string][] = [
  [/^\s*<(?:!doctype\s+html|html)\b/i, "an HTML page"],
  [/^\s*<\?xml\b|^\s*<[a-z][\w:.-]*[\s>]/i, "an XML document"],
  [/^\s*\{\\rtf/, "a word processor's document (RTF)"],
  [/^\s*[{[]\s*(?:["{[]|-?\d)/, "a JSON document"],
  [/^%!PS/, "a PostScript drawing"],
];

const wanted = "Export temperature and mass as columns of numbers, one reading per line.";

/** Says as plainly as possible why a text holds no table. */
export function noTable(text: Text): UnreadableError {
  const place = { source: text.name };
  const beginning = text.decode(0, Math.min(text.end, 500));
  const other = others.find(([pattern]) => pattern.test(beginning));
  if (other !== undefined)
    return new UnreadableError("not-a-table", `This is ${other[1]}, not a text table. ${wanted}`, place);
  const lines = sampleLines(text, { everything: true });
  const numbers = lines.filter((line) =>
    [".", ","].some((mark) => readCell(line, mark as "." | ",").kind === "number"),
  );
  if (numbers.length >= 2 && numbers.length > lines.length / 2) {
    return new UnreadableError("one-column", `There is one column of numbers only. ${wanted}`, place);
  }
  const message =
    "No table found: no two lines split, by tab, semicolon, comma, bar or blanks, into the same number (two or more) of numbers.";
  return new UnreadableError("no-table", `${message} ${wanted}`, place);
}
