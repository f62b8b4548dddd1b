import { spawnSync } from "node:child_process";
import { copyFileSync, mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { root, textOf } from "./root.ts";

/** In the order of the data: a folder imports only folders above it. */
const FOLDERS = [
  "numerics",
  "chemistry",
  "read",
  "curve",
  "losses",
  "phases",
  "protocol",
  "simulate",
  "campaign",
  "compare",
  "render",
  "files",
  "draw",
  "show",
  "cli",
];

/** Stages that must not lean on the forward model, though it stands above them. */
const NO_MODEL = new Set(["campaign", "compare", "render"]);

const below = (folder: string) => FOLDERS.slice(FOLDERS.indexOf(folder) + 1);

/** Folders that a public face has no business with. */
const OUTSIDE: Record<string, string[]> = { node: ["show", "cli"], notebook: ["cli"] };

/** What each place must not import, by the rules of DEVELOPERS.md. */
function forbidden(place: string): string[] {
  const folders = (names: string[]) => names.map((name) => `../${name}/probe.ts`);
  if (place === "root") return folders(FOLDERS);
  if (place === "index") return folders(["files", "draw", "show", "cli"]);
  const faces = FOLDERS.indexOf(place) < FOLDERS.indexOf("files") ? ["../index.ts"] : [];
  if (place !== "cli") faces.push("../node.ts");
  return [...folders([...below(place), ...(NO_MODEL.has(place) ? ["simulate"] : [])]), ...faces, "tg-hydrates"];
}

/** Every import that a place could write. */
const EVERY = [...FOLDERS.map((name) => `../${name}/probe.ts`), "../index.ts", "../node.ts", "tg-hydrates"];

/** Lints files in a folder that knows nothing but the repository's own biome.json: refused imports, `file specifier`. */
function refusedImports(files: Record<string, string>): string[] {
  const folder = mkdtempSync(join(tmpdir(), "tg-hydrates-imports-"));
  try {
    copyFileSync(`${root}biome.json`, join(folder, "biome.json"));
    copyFileSync(`${root}.gitignore`, join(folder, ".gitignore"));
    for (const [file, text] of Object.entries(files)) {
      mkdirSync(join(folder, file, ".."), { recursive: true });
      writeFileSync(join(folder, file), text);
    }
    const { stdout } = spawnSync(
      process.execPath,
      [`${root}node_modules/@biomejs/biome/bin/biome`, "lint", "--reporter=json", "--max-diagnostics=none", "src"],
      { cwd: folder, encoding: "utf8" },
    );
    const { diagnostics } = JSON.parse(stdout) as {
      diagnostics: { category: string; location: { path: string; start: { line: number } } }[];
    };
    return diagnostics
      .filter(({ category }) => category === "lint/style/noRestrictedImports")
      .map(({ location: { path, start } }) => `${path} ${files[path]!.split("\n")[start.line - 1]}`)
      .sort();
  } finally {
    rmSync(folder, { recursive: true });
  }
}

test("a folder that imports a folder below it is refused, one that imports a folder above it is not", () => {
  const line = (specifier: string) => `import "${specifier}";`;
  const files = Object.fromEntries(
    FOLDERS.map((folder) => [
      `src/${folder}/probe.ts`,
      EVERY.filter((specifier) => specifier !== `../${folder}/probe.ts`)
        .map(line)
        .join("\n"),
    ]),
  );
  const expected = FOLDERS.flatMap((folder) =>
    forbidden(folder).map((specifier) => `src/${folder}/probe.ts ${line(specifier)}`),
  );
  expect(refusedImports(files)).toEqual(expected.sort());
});

test.for([
  ["a value", 'import { toCurve } from "../curve/toCurve.ts";'],
  ["a type", 'import type { Curve } from "../curve/types.ts";'],
  ["an export from elsewhere", 'export { toCurve } from "../curve/toCurve.ts";'],
  ["an exported type from elsewhere", 'export type { Curve } from "../curve/types.ts";'],
  ["a late import", 'const late = import("../curve/toCurve.ts");'],
  ["a roundabout path", 'import { toCurve } from "./../curve/toCurve.ts";'],
] as const)("read/ is refused %s of curve/", ([, text]) => {
  expect(refusedImports({ "src/read/probe.ts": text })).toEqual([`src/read/probe.ts ${text}`]);
});

test("a file beside the folders imports none of them, the public face all but those that need Node", () => {
  const text = (place: string) =>
    FOLDERS.map((folder) => `export * from "./${folder}/probe.ts";`)
      .filter((_, i) => !(OUTSIDE[place] ?? []).includes(FOLDERS[i]!))
      .join("\n");
  const refused = (place: string, folders: string[]) =>
    folders.map((folder) => `src/${place}.ts export * from "./${folder}/probe.ts";`).sort();
  expect(refusedImports({ "src/errors.ts": text("errors") })).toEqual(refused("errors", FOLDERS));
  expect(refusedImports({ "src/index.ts": text("index") })).toEqual(refused("index", ["files", "draw", "show", "cli"]));
  expect(refusedImports({ "src/node.ts": text("node") })).toEqual([]);
  expect(refusedImports({ "src/node.ts": text("probe") })).toEqual(refused("node", ["show", "cli"]));
  const notebook = `export * from "./node.ts";\n${text("notebook")}`;
  expect(refusedImports({ "src/notebook.ts": notebook })).toEqual([]);
  expect(refusedImports({ "src/notebook.ts": text("probe") })).toEqual(refused("notebook", ["cli"]));
});

test("every folder of src/ has its place in the order", () => {
  const folders = readdirSync(`${root}src`, { withFileTypes: true }).filter((entry) => entry.isDirectory());
  expect(FOLDERS).toEqual(expect.arrayContaining(folders.map(({ name }) => name)));
});

test("no type is imported inside an expression, where the rule does not see it", () => {
  const files = readdirSync(`${root}src`, { recursive: true, encoding: "utf8" }).filter((file) => file.endsWith(".ts"));
  expect(files.length).toBeGreaterThan(50);
  expect(files.filter((file) => /\bimport\("[^"]+"\)\.[A-Z]/.test(textOf(`src/${file}`)))).toEqual([]);
});
