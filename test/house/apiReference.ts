import { type PublicName, publicNames } from "./declarations.ts";
import { jsonOf, textOf } from "./root.ts";

/** What the folders of the main entry hold, in the order of the data. */
const folders: Record<string, string> = {
  read: "Reading: bytes → Run",
  curve: "Curves: Run → Curve",
  losses: "Losses: Curve → losses",
  phases: "Phases: losses → indices, amounts, checks",
  protocol: "Protocols: all of a run in one document",
  campaign: "Campaigns: run sheet, mixes, results → Campaign",
  compare: "Decisions: campaign and properties → verdicts",
  render: "Tables and texts",
  simulate: "The forward model",
  chemistry: "Chemistry",
  "": "Errors, flags, numbers, version",
};

/** Deno runs what stands in `ts` fences of the sources; here the same is shown, and signatures do not run. */
const fence = "```ts ignore";

/** Entry points of the package: name for an import → file of `src/` without ending. */
export function faces(): Map<string, string> {
  const { name, exports } = jsonOf<{ name: string; exports: Record<string, string | { types: string }> }>(
    "package.json",
  );
  return new Map(
    Object.entries(exports).flatMap(([entry, target]) =>
      typeof target === "string" ? [] : [[entry.replace(".", name), target.types.replace(/^\.\/dist\/|\.d\.ts$/g, "")]],
    ),
  );
}

/** A heading with the names under it. */
interface Section {
  title: string;
  names: PublicName[];
}

/** The API reference, generated from the built declarations and their descriptions. */
export function apiReference(): string {
  const sections: Section[] = [];
  // What an entry point exports again is told once.
  const told = new Set<string>();
  for (const [entry, face] of faces()) {
    const names = publicNames(face).filter((one) => !told.has(one.name));
    for (const { name } of names) told.add(name);
    if (face !== "index") {
      sections.push({ title: `Beside that in \`${entry}\``, names });
      continue;
    }
    const known = new Set(Object.keys(folders));
    const folderOf = ({ file }: PublicName) => /^src\/(\w+)\//.exec(file)?.[1] ?? "";
    const strange = names.find((one) => !known.has(folderOf(one)));
    if (strange) throw new Error(`Give the folder of ${strange.file} a heading`);
    for (const [folder, title] of Object.entries(folders)) {
      const own = names.filter((one) => folderOf(one) === folder);
      if (own.length > 0) sections.push({ title, names: own });
    }
  }
  const all = sections.flatMap(({ names }) => names);
  const links = new Map(all.map((one) => [one.name, anchorOf(one)]));
  const entries = [...faces().keys()].map((entry) => `\`${entry}\``);
  return `${[
    "# Public names",
    "",
    "<!-- Written by `UPDATE_API=1 npx vitest run test/house/api.test.ts` from the descriptions in the sources: change those. -->",
    "",
    `Entry points: ${entries.join(", ")}. The first needs neither Node nor files and runs in a browser; each of the others`,
    "exports all of it and more. Masses in mg, temperatures in °C, times in s unless a name says otherwise; a name in a table carries its unit.",
    "Every example is run by the tests; it is silent where it holds. The formulas stand in [METHODS.md](METHODS.md).",
    "",
    "| section | functions, classes, values | types |",
    "| --- | --- | --- |",
    ...sections.map(({ title, names }) => {
      const listed = (types: boolean) =>
        names
          .filter((one) => isType(one) === types)
          .map((one) => `[${one.name}](#${anchorOf(one)})`)
          .join(", ");
      return `| ${title} | ${listed(false)} | ${listed(true)} |`;
    }),
    "",
    ...sections.flatMap(({ title, names }) => [`## ${title}`, "", ...names.flatMap((one) => entryOf(one, links))]),
    ...furtherTypes(all),
  ]
    .join("\n")
    .trimEnd()}\n`;
}

function isType({ kind }: PublicName): boolean {
  return kind === "interface" || kind === "type";
}

function headingOf({ name, kind }: PublicName): string {
  return kind === "function" ? `${name}()` : isType({ kind } as PublicName) ? `type ${name}` : `${kind} ${name}`;
}

function anchorOf(one: PublicName): string {
  return headingOf(one)
    .toLowerCase()
    .replaceAll(/[^\w -]/g, "")
    .replaceAll(" ", "-");
}

function entryOf(one: PublicName, links: ReadonlyMap<string, string>): string[] {
  const { doc, file, declaration } = one;
  const say = (text: string) => prose(text, links);
  const lines = [`### ${headingOf(one)}`, "", fence, shown(declaration), "```", "", say(doc.text), ""];
  for (const { name, text } of doc.params) lines.push(`- \`${name}\`: ${say(text)}`);
  if (doc.returns !== null) lines.push(`- Returns: ${say(doc.returns)}`);
  for (const text of doc.throws) lines.push(`- Throws: ${say(text.replace(/^\{(\w+)\} ?/, "`$1`: "))}`);
  if (doc.params.length + doc.throws.length > 0 || doc.returns !== null) lines.push("");
  if (doc.example !== null) lines.push(fence, doc.example.trimEnd(), "```", "");
  const path = `${file.replace(/^src\//, "")}.ts`;
  lines.push(`[${path}](${path})`, "");
  return lines;
}

/** A long union stands one member per line. */
function shown(declaration: string): string {
  const [, head, members] = /^(type \w+ =) ([^{}()\n]+);$/.exec(declaration) ?? [];
  if (head === undefined || declaration.length <= 110) return declaration;
  return `${head}\n${members!
    .split(" | ")
    .map((member) => `  | ${member}`)
    .join("\n")};`;
}

/** Text of a description: defaults in words, links where there is something to link to, no mathematics by accident. */
function prose(text: string, links: ReadonlyMap<string, string>): string {
  const linked = (name: string) => (links.has(name) ? `[\`${name}\`](#${links.get(name)})` : `\`${name}\``);
  return text
    .replaceAll(/\{@link (\w+)\}/g, (_, name: string) => linked(name))
    .replaceAll(/,? ?\n?@default (.+?)(?=$|\n|; `|\. `)/g, " (default: $1)")
    .split(/(`[^`]*`)/)
    .map((part) => (part.startsWith("`") ? part : part.replaceAll("$", "\\$").replaceAll("<", "&lt;")))
    .join("")
    .trim();
}

/** Types that stand in a declaration and have no public name themselves. */
function furtherTypes(all: readonly PublicName[]): string[] {
  const known = new Set(all.map(({ name }) => name));
  const further = new Map<string, { file: string; in: string[] }>();
  for (const { name, file, declaration } of all) {
    const text = textOf(`${file.replace(/^src/, "dist")}.d.ts`);
    const imported = new Map<string, string>();
    for (const [, list, from] of text.matchAll(/^import (?:type )?\{([^}]+)\} from "(\.[^"]+)";/gm)) {
      const path = new URL(from!, `file:///${file}`).pathname.slice(1);
      for (const one of list!.split(",")) imported.set(one.trim().replace(/^type /, ""), path);
    }
    for (const [, own] of text.matchAll(/^export (?:interface|type) (\w+)/gm)) imported.set(own!, `${file}.ts`);
    const bare = declaration.replaceAll(/\/\*[\s\S]*?\*\//g, "").replaceAll(/"[^"]*"/g, '""');
    for (const [type] of bare.matchAll(/\b[A-Z]\w+\b/g)) {
      const path = imported.get(type);
      if (path === undefined || known.has(type)) continue;
      const entry = further.get(type) ?? { file: path, in: [] };
      further.set(type, entry);
      if (!entry.in.includes(name)) entry.in.push(name);
    }
  }
  if (further.size === 0) return [];
  return [
    "## Types without a public name",
    "",
    "They stand in the declarations above; TypeScript knows them through these.",
    "",
    "| type | in | of |",
    "| --- | --- | --- |",
    ...[...further]
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([type, entry]) => {
        const path = entry.file.replace(/^src\//, "");
        return `| \`${type}\` | [${path}](${path}) | ${entry.in.map((name) => `\`${name}\``).join(", ")} |`;
      }),
  ];
}
