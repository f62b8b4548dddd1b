import { parseAge } from "./parseAge.ts";

/** One part of a file name with what it says by itself. */
export type NamePart =
  | {
      kind: "duration";
      minutes: number;
      text: string;
      /** What it is written against: `age28d`, `moist7d`, `moist_7d`, or neither. */
      after: "age" | "glued-curing" | "curing" | "other";
    }
  | { kind: "curing" | "mix" | "replicate" | "specimen" | "word"; text: string }
  | { kind: "role"; role: "blank" | "binder" | "aggregate" }
  | { kind: "date" };

type Rule = [RegExp, (found: RegExpExecArray, before: NamePart | undefined) => NamePart[]];

/** Words of the trade for a curing regime. What is not among them may be anything: a mix, a regime, a laboratory. */
const curingWords =
  "moist|wet|fog|fogroom|mist|water|limewater|sealed|unsealed|dry|air|ambient|steam|steamed|immersed|submerged|wrapped|film|foil|membrane|burlap|uncured|outdoors?|oven|humid|autoclaved?";
const units = "mins?|minutes?|h|hrs?|hours?|d|days?|wks?|weeks?";
const number = "\\d{1,4}(?:[.,]\\d{1,3})?";
/** One letter after a blank or a dash could begin anything; of the units d and h are common enough (`28-d`), w is not. */
const duration = `(?:(${number})(${units}|w)|(${number})[-_ ](${units}))`;
const letter = "[\\p{L}\\p{N}]";
const whole = (source: string): RegExp => new RegExp(`(?:${source})(?!${letter})`, "iuy");
const curingWord = new RegExp(`^(?:${curingWords})$`, "i");

/** Tried in this order where a part begins. */
const rules: Rule[] = [
  [whole("\\d{4}([-_.])\\d{2}\\1\\d{2}|\\d{2}([-_.])\\d{2}\\2\\d{4}|(?:19|20)\\d{6}"), () => [{ kind: "date" }]],
  [whole("rh[-_ ]?(\\d{2,3})|(\\d{2,3})[-_ ]?%?[-_ ]?rh"), (f) => [{ kind: "curing", text: `rh${f[1] ?? f[2]}` }]],
  [whole(`aged?[-_ ]?${duration}`), (f) => durationOf(f[1] ?? f[3]!, f[2] ?? f[4]!, "age")],
  [
    whole(duration),
    (f, before) => durationOf(f[1] ?? f[3]!, f[2] ?? f[4]!, before?.kind === "curing" ? "curing" : "other"),
  ],
  [
    whole("days?[-_ ]?(\\d{1,4})"),
    (f, before) => durationOf(f[1]!, "d", before?.kind === "curing" ? "curing" : "other"),
  ],
  [whole("(?:replicate|repl|rep|r)[-_ ]?#?(\\d{1,3})"), (f) => [{ kind: "replicate", text: String(Number(f[1])) }]],
  [
    whole("(?:specimen|spec|prism|cube|core|cylinder)[-_ ]?(\\d{1,3}|[a-z])"),
    (f) => [{ kind: "specimen", text: f[1]!.replace(/^0+(?=\d)/, "") }],
  ],
  [whole("mix(?:[a-z]\\d{0,3}|\\d{1,3})"), (f) => [{ kind: "mix", text: f[0] }]],
  [whole(`mix[-_ ](?!${duration}(?!${letter})|r\\d|rep)(${letter}+)`), (f) => [{ kind: "mix", text: f[5]! }]],
  [whole("curing(?:[a-z]\\d{0,3}|\\d{1,3})"), (f) => [{ kind: "curing", text: f[0] }]],
  [whole(`(?:${curingWords})\\d{0,2}`), (f) => [{ kind: "curing", text: f[0].toLowerCase() }]],
  [whole("blank|binder|anhydrous|aggregate"), (f) => [{ kind: "role", role: roleOf(f[0].toLowerCase()) }]],
  [
    whole(`([\\p{L}]+)(${number})(${units}|w)`),
    (f) =>
      curingWord.test(f[1]!)
        ? [{ kind: "curing", text: f[1]!.toLowerCase() }, ...durationOf(f[2]!, f[3]!, "glued-curing")]
        : [{ kind: "word", text: f[1]! }, ...durationOf(f[2]!, f[3]!, "other")],
  ],
  [whole(`${letter}+`), (f) => [{ kind: "word", text: f[0] }]],
];

/**
 * A file name in its parts, each with what it says by itself. What only the comparison with other names can tell is left to
 * `draftSheet`.
 *
 * @param file Relative to the folder; the names of its directories are read too.
 */
export function splitFileName(file: string): NamePart[] {
  const name = file.replace(/\.[a-z][a-z0-9]{0,4}$/i, "").normalize("NFC");
  const parts: NamePart[] = [];
  let position = 0;
  while (position < name.length) {
    let next = position + 1;
    for (const [pattern, read] of rules) {
      pattern.lastIndex = position;
      const found = pattern.exec(name);
      if (!found) continue;
      parts.push(...read(found, parts.at(-1)));
      next = pattern.lastIndex;
      break;
    }
    position = next;
  }
  return parts;
}

function durationOf(value: string, unit: string, after: "age" | "glued-curing" | "curing" | "other"): NamePart[] {
  const text = `${value.replace(",", ".")}${unit.toLowerCase()}`;
  try {
    return [{ kind: "duration", minutes: parseAge(text), text, after }];
  } catch (error) {
    // Longer than any age: a number of another kind.
    if (error instanceof RangeError) return [{ kind: "word", text }];
    throw error;
  }
}

function roleOf(word: string): "blank" | "binder" | "aggregate" {
  return word === "blank" || word === "aggregate" ? word : "binder";
}
