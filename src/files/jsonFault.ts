/** Where a text stops being JSON. */
export interface JsonFault {
  /** 1-based. */
  line: number;
  /** 1-based, in characters. */
  column: number;
  /** What is wrong there, as a sentence. */
  what: string;
}

const literal = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][-+]?\d+)?(?![\w.+-])|(?:true|false|null)(?!\w)/y;
const blanks = /[ \t\n\r]*/y;
// Inside a string, as RFC 8259 says in section 7: no control characters, among them the line end, no quote and no backslash alone.
const plain = /(?:[\x20-\x21\x23-\x5b\x5d-\uffff]|\\(?:["\\/bfnrt]|u[\da-fA-F]{4}))*/y;

/** Deeper than any document of this program; the platform's parser would run out of stack much later. */
const DEEPEST = 500;

/**
 * The first place at which a text breaks the grammar of JSON (RFC 8259), or null where it keeps it. The platform's parser says
 * what is wrong but, depending on the engine, not where.
 */
export function jsonFault(text: string): JsonFault | null {
  let at = 0;
  const take = (pattern: RegExp): string => {
    pattern.lastIndex = at;
    const found = pattern.exec(text)?.[0] ?? "";
    at += found.length;
    return found;
  };
  const next = (): string => {
    take(blanks);
    return text.charAt(at);
  };
  class Stop {
    readonly what: string;
    constructor(what: string) {
      this.what = what;
    }
  }
  const string = (): void => {
    at++;
    take(plain);
    if (text[at] === '"') at++;
    else if (at >= text.length) throw new Stop("The text ends inside a string.");
    else if (text[at] === "\\") throw new Stop("This escape is unknown: write a backslash as \\\\.");
    else throw new Stop("The string is not closed on its line.");
  };
  const members = (close: string, member: () => void): void => {
    at++;
    if (next() === close) {
      at++;
      return;
    }
    for (;;) {
      member();
      const mark = next();
      if (mark === close) {
        at++;
        return;
      }
      if (mark !== ",") throw new Stop(`A comma or ${close} is missing before this.`);
      at++;
      if (next() === close) throw new Stop(`A comma stands before ${close}: take it out.`);
    }
  };
  const value = (depth: number): void => {
    const first = next();
    if (depth > DEEPEST) throw new Stop("Brackets are nested too deep.");
    if (first === '"') string();
    else if (first === "{") {
      members("}", () => {
        if (next() !== '"') throw new Stop('The name of a field is missing here, in "double quotes".');
        string();
        if (next() !== ":") throw new Stop("A colon is missing before this.");
        at++;
        value(depth + 1);
      });
    } else if (first === "[") members("]", () => value(depth + 1));
    else if (first === "") throw new Stop("The text ends too early.");
    else if (text.startsWith("//", at) || text.startsWith("/*", at))
      throw new Stop("JSON knows no comments: use the fields note and description.");
    else if (take(literal) === "") throw new Stop("This is no value: a number, true, false, null or a text in quotes.");
  };
  try {
    value(0);
    if (next() !== "") throw new Stop("The document has ended before this: take it out.");
    return null;
  } catch (stop) {
    if (!(stop instanceof Stop)) throw stop;
    const before = text.slice(0, at).split("\n");
    return { line: before.length, column: [...before.at(-1)!].length + 1, what: stop.what };
  }
}
