import { posix } from "node:path";
import { textOf } from "./root.ts";

/** A name that an entry point of the package exports. */
export interface PublicName {
  name: string;
  kind: "function" | "class" | "const" | "interface" | "type";
  /** Where it is declared, without ending, from the root: `src/losses/losses`. */
  file: string;
  /** Its declaration as built, without `export declare`; overloads one after the other. */
  declaration: string;
  doc: Doc;
}

/** The parts of a description. */
export interface Doc {
  text: string;
  params: { name: string; text: string }[];
  returns: string | null;
  throws: string[];
  example: string | null;
}

/**
 * The names that an entry point exports, in its order, with declaration and description, from the built declarations: their form is
 * that of one pinned compiler. The JavaScript interface of TypeScript 7 is not used, since it calls itself unstable.
 *
 * @param face `index`, `node`, …
 * @throws Error for an export that is not found where the entry point says it is.
 */
export function publicNames(face: string): PublicName[] {
  const text = withoutComments(textOf(`dist/${face}.d.ts`));
  const named = [...text.matchAll(/^export (?:type )?\{([^}]+)\} from "([^"]+)";/gm)].flatMap(([, list, from]) => {
    const file = posix.join("src", posix.dirname(`${face}.d.ts`), from!.replace(/\.ts$/, ""));
    return list!.split(",").map((one) => ({ name: one.trim().replace(/^type /, ""), file }));
  });
  const own = [...text.matchAll(/^export (?:declare )?(?:function|class|const|interface|type) (\w+)/gm)].map(
    ([, name]) => ({ name: name!, file: `src/${face}` }),
  );
  return [...named.filter(({ name }) => name !== ""), ...own].map(({ name, file }) => find(name, file));
}

function find(name: string, file: string): PublicName {
  const text = textOf(`${file.replace(/^src/, "dist")}.d.ts`);
  const start = new RegExp(`^export (?:declare )?(function|class|const|interface|type) ${name}\\b`, "gm");
  const all = [...text.matchAll(start)];
  const [first] = all;
  if (!first) throw new Error(`${name} is not declared in ${file}: build first`);
  const declaration = all
    .map(({ index }) => text.slice(index, endOf(text, index)).replace(/^export (?:declare )?/, ""))
    .join("\n")
    .replaceAll(/^( {4})+/gm, (blanks) => " ".repeat(blanks.length / 2));
  return { name, kind: first[1] as PublicName["kind"], file, declaration, doc: docBefore(text, first.index) };
}

/** One past the `;` or `}` that ends a declaration: brackets inside comments and strings do not count. */
function endOf(text: string, from: number): number {
  let depth = 0;
  const isBlock = /^export (?:declare )?(?:interface|class)\b/.test(text.slice(from, from + 40));
  for (let i = from; i < text.length; i++) {
    const char = text[i]!;
    if (text.startsWith("/*", i)) i = text.indexOf("*/", i) + 1;
    else if (char === '"' || char === "`") i = text.indexOf(char, i + 1);
    else if ("([{".includes(char)) depth++;
    else if (")]}".includes(char)) {
      depth--;
      if (isBlock && depth === 0 && char === "}") return i + 1;
    } else if (char === ";" && depth === 0) return i + 1;
  }
  throw new Error(`No end of the declaration ${text.slice(from, from + 60)}`);
}

function withoutComments(text: string): string {
  return text.replaceAll(/\/\*[\s\S]*?\*\//g, "");
}

/** The description that ends right before a place. */
function docBefore(text: string, at: number): Doc {
  const before = text.slice(0, at).trimEnd();
  if (!before.endsWith("*/")) return docOf("");
  return docOf(before.slice(before.lastIndexOf("/**") + 3, -2).replaceAll(/^ *\* ?/gm, ""));
}

const block = /^@(param|returns|throws|example)\b ?/;

function docOf(comment: string): Doc {
  const parts: { tag: string; lines: string[] }[] = [{ tag: "text", lines: [] }];
  let fenced = false;
  for (const line of comment.trim().split("\n")) {
    const [whole, tag] = fenced ? [] : (block.exec(line) ?? []);
    if (line.startsWith("```")) fenced = !fenced;
    if (whole === undefined) parts.at(-1)!.lines.push(line);
    else parts.push({ tag: tag!, lines: [line.slice(whole.length)] });
  }
  const all = (wanted: string): string[] =>
    parts.filter(({ tag }) => tag === wanted).map(({ lines }) => lines.join("\n").trim());
  return {
    text: all("text")[0]!,
    params: all("param").map((text) => {
      const [, name, rest] = /^(\w+) ?([\s\S]*)$/.exec(text)!;
      return { name: name!, text: rest! };
    }),
    returns: all("returns")[0] ?? null,
    throws: all("throws"),
    example: /```ts\n([\s\S]*?)```/.exec(all("example")[0] ?? "")?.[1] ?? null,
  };
}
