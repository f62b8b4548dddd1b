// Texts of a stranger, for the fuzz test: names that mean something to the language, to a path, to a spreadsheet, to a page.
import type { Random } from "../read/spoil.ts";

/** One of a list. */
export function pick<T>(list: readonly T[], random: Random): T {
  return list[random(list.length)]!;
}

/** Names that are harmless only where nobody takes them for more than text. */
export const strangeTexts: readonly string[] = [
  // The language.
  ..."__proto__ constructor prototype toString valueOf hasOwnProperty __defineGetter__ undefined null NaN Infinity".split(
    " ",
  ),
  ..."-Infinity -0 1e999 -1e999 1e-400 0x10 1_000 ９ 𝟙 true [object] $1 $& $` {{x}} %s %00".split(" "),
  // Paths.
  ..."../secret.txt ..\\secret.txt ../../../../etc/passwd /etc/passwd \\etc C:\\secret.txt c:secret.txt //server/share/x".split(
    " ",
  ),
  ..."\\\\server\\share\\x %2e%2e/secret.txt ..%2fsecret.txt file:///etc/passwd http://example.org/x a/../../b ./a.txt a//b".split(
    " ",
  ),
  ..."CON NUL aux.txt a.txt:stream ~/x $HOME/x link.txt loop/loop/a.txt elsewhere/secret.txt . .. ... / \\".split(" "),
  "a\0b",
  "a.txt\0.png",
  // Spreadsheets.
  ..."=1+1 +1+1 -1+1 @SUM(A1) '=1 ''=1 ' '' ＝1 ＋1 －1 ＠1 -1 +1e5 =cmd|'/C".split(" "),
  "\t=1",
  "\r=1",
  ' "=1',
  "a;=1",
  // Pages and terminals.
  "<script>alert(1)</script>",
  '"><img src=x onerror=alert(1)>',
  "</td></table>",
  "&lt;&amp;&#39;",
  "]]>",
  "<!--",
  "javascript:alert(1)",
  "\u001b[31mred",
  "\u001b]0;title\u0007",
  "\u009b2J",
  "\u202egpj.txt",
  "a\u200bb",
  "\ufeffx",
  // Characters.
  "e\u0301",
  "\u00e9",
  "\ud800",
  "\udc00x",
  "🧪",
  "İ",
  "ß",
  "\u2028",
  "a\nb",
  "a\r\nb",
  "a,b",
  'a"b',
  '"',
  '""',
  "a\tb",
  "\u00a0",
  " ",
  "",
];

/** Endless repetitions, at which a pattern could run away. */
const floods = [
  ..."x0 9\t-.,:;=\"'([{<%_/\\#aE\u0301é",
  "1.",
  "1,",
  "a_",
  "7d",
  "e1",
  "0.0",
  "__",
  "==",
  "::",
  "((",
  " =",
  "x ",
  "mg ",
];

/** A strange text; now and then a flood of up to `most` characters. */
export function strangeText(random: Random, most = 3000): string {
  if (random(40) > 0) return pick(strangeTexts, random);
  const flood = pick(floods, random);
  const end = pick(["", "", "\0", "!", "x", "\n", ...strangeTexts], random);
  return pick(["", "1", "(", "a=", "-"], random) + flood.repeat(Math.ceil(random(most) / flood.length)) + end;
}

/** A text with a few characters deleted, doubled, exchanged or put in. */
export function spoilText(text: string, random: Random): string {
  let changed = text;
  for (let i = random(4) + 1; i > 0; i--) {
    const at = random(changed.length + 1);
    const [before, after] = [changed.slice(0, at), changed.slice(at)];
    switch (random(7)) {
      case 0:
        changed = before + after.slice(random(30));
        break;
      case 1:
        changed = before + after.slice(0, random(200)) + after;
        break;
      case 2:
        changed = before + pick([..."\"',;\t\n\r[]{}:0-.\0\\/"], random) + after;
        break;
      case 3:
        changed = before + strangeText(random) + after;
        break;
      case 4:
        changed = before;
        break;
      case 5: {
        const [from, to] = [pick([...';,\t.\n"'], random), pick([...';,\t.\n" '], random)];
        changed = changed.replaceAll(from, to);
        break;
      }
      default:
        changed = before + after.slice(1);
    }
    // Doubling must not run away here either.
    if (changed.length > 60_000) changed = changed.slice(0, 60_000);
  }
  return changed;
}

/** A document of JSON with some values, names or whole branches changed. */
export function spoilDocument(document: unknown, random: Random): unknown {
  const root = { document: structuredClone(document) };
  for (let i = random(4) + 1; i > 0; i--) {
    let [parent, key]: [Record<string | number, unknown>, string | number] = [root, "document"];
    for (let depth = random(8); depth > 0; depth--) {
      const inner: unknown = parent[key];
      if (typeof inner !== "object" || inner === null) break;
      const keys = Object.keys(inner);
      if (keys.length === 0) break;
      parent = inner as Record<string, unknown>;
      key = pick(keys, random);
    }
    spoilMember(parent, key, random);
  }
  return root.document;
}

function spoilMember(parent: Record<string | number, unknown>, key: string | number, random: Random): void {
  const value = parent[key];
  switch (random(10)) {
    case 0:
      if (Array.isArray(parent)) parent.splice(Number(key), 1);
      else delete parent[key];
      return;
    case 1:
      // An own property, whatever it is called.
      Object.defineProperty(parent, strangeText(random, 100), {
        value,
        enumerable: true,
        configurable: true,
        writable: true,
      });
      return;
    case 2:
      parent[key] = [value, value];
      return;
    case 3:
      parent[key] = { value };
      return;
    case 4:
      if (Array.isArray(value))
        parent[key] = [...value, ...value.slice(0, random(value.length + 1)), pick([null, 1, "x", {}], random)];
      else parent[key] = pick([[], {}, [[]], [{}]], random);
      return;
    case 5: {
      let deep: unknown = value;
      for (let i = random(700); i > 0; i--) deep = random(2) === 0 ? [deep] : { a: deep };
      parent[key] = deep;
      return;
    }
    case 6:
    case 7:
      if (typeof value === "number") {
        const numbers = [0, -0, 1, -1, 0.5, 2 * value, -value, value + 1, value / 1e3, 1e9, 1e300, -1e308, 5e-324];
        parent[key] = pick(numbers, random);
        return;
      }
      parent[key] = strangeText(random, 200);
      return;
    default:
      parent[key] = pick<unknown>(
        [null, true, false, 0, -1, 1e308, 1e-320, "", strangeText(random, 200), [], {}],
        random,
      );
  }
}

/** A document of JSON whose form stays: one number in `rarely` is another, one text in five times as many is strange. */
export function shiftNumbers(document: unknown, random: Random, rarely = 20): unknown {
  if (typeof document === "number") {
    const others = [0, -document, 2 * document, document / 3, document + 1, 1, 1e-9, 1e12, 1e300];
    return random(rarely) > 0 ? document : pick(others, random);
  }
  if (typeof document === "string") return random(5 * rarely) > 0 ? document : strangeText(random, 200);
  if (Array.isArray(document)) return document.map((item) => shiftNumbers(item, random, rarely));
  if (typeof document !== "object" || document === null) return document;
  return Object.fromEntries(Object.entries(document).map(([key, value]) => [key, shiftNumbers(value, random, rarely)]));
}
