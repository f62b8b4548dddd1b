import { spawnSync } from "node:child_process";
import { existsSync, readdirSync } from "node:fs";
import { expect, test } from "vitest";
import { version } from "../../src/version.ts";
import { jsonOf, root, textOf } from "./root.ts";

interface Manifest {
  name: string;
  version: string;
  license: string;
  type: string;
  bin: Record<string, string>;
  files: string[];
  exports: Record<string, string | Record<string, string>>;
  scripts: Record<string, string>;
  dependencies?: Record<string, string>;
  devDependencies?: Record<string, string>;
  optionalDependencies?: Record<string, string>;
  peerDependencies?: Record<string, string>;
}

const manifest = jsonOf<Manifest>("package.json");
const tools = jsonOf<Manifest>("test/tools/package.json");
const shipped = { ...manifest.dependencies, ...manifest.optionalDependencies, ...manifest.peerDependencies };
/** A package for development that a user may have too is named with those of the library. */
const developing = Object.fromEntries(
  Object.entries(manifest.devDependencies ?? {}).filter(([name]) => !(name in shipped)),
);

/** First cells of the table under a heading of a paper, without their backticks, with the text of the second. */
function tableUnder(file: string, heading: string): Map<string, string> {
  const section = textOf(file).split(`\n## ${heading}\n`)[1]?.split("\n## ")[0];
  if (section === undefined) throw new Error(`${file} has no section "${heading}"`);
  return new Map([...section.matchAll(/^\| `([^`]+)` \| (.+) \|$/gm)].map(([, name, text]) => [name!, text!]));
}

test.for([
  ["package.json", manifest],
  ["test/tools/package.json", tools],
] as const)("every package in %s is pinned to one version", ([, { devDependencies, ...rest }]) => {
  const pinned = { ...devDependencies, ...rest.dependencies, ...rest.optionalDependencies, ...rest.peerDependencies };
  expect(Object.keys(pinned).length).toBeGreaterThan(0);
  for (const wanted of Object.values(pinned)) expect(wanted).toMatch(/^\d+\.\d+\.\d+$/);
});

test.for([
  ["README.md", shipped],
  ["DEVELOPERS.md", { ...developing, ...tools.devDependencies }],
] as const)("%s names every package with its reason, and no other", ([file, packages]) => {
  const reasons = tableUnder(file, "Dependencies");
  expect([...reasons.keys()].sort()).toEqual(Object.keys(packages).sort());
  for (const reason of reasons.values()) expect(reason.length).toBeGreaterThan(20);
});

test("Deno gets the versions that Node gets", () => {
  const { imports, nodeModulesDir } = jsonOf<{ imports: Record<string, string>; nodeModulesDir: string }>("deno.json");
  expect(nodeModulesDir).toBe("none");
  const pinned: Record<string, string> = {};
  for (const [name, target] of Object.entries(imports)) {
    const match = /^npm:\/?((?:@[^/]+\/)?[^@/]+)@([^/]+)(\/?)$/.exec(target);
    if (!match) continue;
    const [, wanted, at, slash] = match;
    expect(name).toBe(wanted!.replace("@types/", "types-of-") + slash);
    pinned[wanted!] = at!;
  }
  const types = Object.entries(manifest.devDependencies ?? {}).filter(([name]) => name === "@types/d3-array");
  expect(pinned).toEqual({ ...shipped, ...Object.fromEntries(types) });
});

test("Deno runs the sources of every entry point", () => {
  const { imports } = jsonOf<{ imports: Record<string, string> }>("deno.json");
  const own = Object.entries(imports).filter(([name]) => name.startsWith(manifest.name));
  const built = Object.entries(manifest.exports).flatMap(([entry, target]) =>
    typeof target === "string" ? [] : [[entry.replace(".", manifest.name), target.default!]],
  );
  const sourceOf = (file: string) => file.replace("/dist/", "/src/").replace(/\.js$/, ".ts");
  expect(Object.fromEntries(own)).toEqual(Object.fromEntries(built.map(([name, file]) => [name!, sourceOf(file!)])));
});

test("the version is the same everywhere", () => {
  const lock = jsonOf<{ version: string; packages: Record<string, { version?: string }> }>("package-lock.json");
  const [, logged] = /^## (\S+)/m.exec(textOf("CHANGELOG.md")) ?? [];
  expect({ source: version, lock: lock.version, root: lock.packages[""]!.version, logged }).toEqual({
    source: manifest.version,
    lock: manifest.version,
    root: manifest.version,
    logged: manifest.version,
  });
});

test("the locks name no registry", () => {
  for (const file of ["package-lock.json", "test/tools/package-lock.json"])
    expect(textOf(file)).not.toMatch(/https?:\/\/registry/);
});

test("every entry point exists once built, its types named first", () => {
  for (const target of Object.values(manifest.exports)) {
    if (typeof target === "string") {
      expect(existsSync(root + target), target).toBe(true);
    } else {
      expect(Object.keys(target)).toEqual(["types", "default"]);
      for (const file of Object.values(target)) expect(existsSync(root + file), file).toBe(true);
    }
  }
  for (const file of Object.values(manifest.bin)) expect(existsSync(root + file), file).toBe(true);
});

test("installing the package runs nothing", () => {
  for (const hook of ["preinstall", "install", "postinstall"]) expect(manifest.scripts).not.toHaveProperty(hook);
});

test("the tarball holds the build, the sources, the command, the papers and what the README shows, nothing else", () => {
  const { stdout, stderr } = spawnSync("npm", ["pack", "--dry-run", "--json", "--ignore-scripts"], {
    cwd: root,
    encoding: "utf8",
    shell: process.platform === "win32",
  });
  if (!stdout) throw new Error(stderr);
  const [{ files }] = JSON.parse(stdout) as [{ files: { path: string }[] }];
  const paths = files.map(({ path }) => path);
  const wanted = [
    "dist/index.js",
    "dist/index.d.ts",
    "dist/cli.js",
    "dist/worker.js",
    "dist/THIRD-PARTY.txt",
    "bin/tg-hydrates.js",
  ];
  expect(wanted.filter((path) => !paths.includes(path))).toEqual([]);
  const top = new Set(paths.map((path) => path.split("/")[0]));
  expect([...top].sort()).toEqual([
    "CHANGELOG.md",
    "DEVELOPERS.md",
    "LICENSE",
    "README.md",
    "bin",
    "dist",
    "fixtures",
    "package.json",
    "src",
  ]);
  // Who has only the package can follow the README all the same.
  const targets = [...textOf("README.md").matchAll(/\]\((?!https?:)([^)#]+)|<img src="([^"]+)"/g)].map(
    ([, link, image]) => (link ?? image)!,
  );
  expect(targets.length).toBeGreaterThan(5);
  expect(targets.filter((path) => !paths.includes(path))).toEqual([]);
  expect(paths.filter((path) => path.startsWith("fixtures/") && !targets.includes(path))).toEqual([]);
  const sources = readdirSync(`${root}src`, { recursive: true, encoding: "utf8" }).filter((file) =>
    /\.(ts|md)$/.test(file),
  );
  expect(paths.filter((path) => path.startsWith("src/")).sort()).toEqual(sources.map((file) => `src/${file}`).sort());
});

/** Licences that may go into a package under the MIT licence with no more than their notice. */
const FREE = new Set(["MIT", "ISC", "CC0-1.0", "BSD-2-Clause", "BSD-3-Clause", "Apache-2.0", "0BSD", "Unlicense"]);

test("the licence is the same in every paper, and every package that is shipped with or needed allows it", () => {
  expect(textOf("LICENSE")).toMatch(/^MIT License\n/);
  expect([manifest.license, tools.license]).toEqual(["MIT", "MIT"]);
  expect(textOf("README.md")).toMatch(/\nMIT\b/);
  const { packages } = jsonOf<{ packages: Record<string, { dev?: boolean; devOptional?: boolean }> }>(
    "package-lock.json",
  );
  // Not the optional ones of other platforms, which npm leaves out.
  const needed = Object.keys(packages).filter(
    (path) => path !== "" && !packages[path]!.dev && !packages[path]!.devOptional && existsSync(root + path),
  );
  expect(needed.length).toBeGreaterThanOrEqual(Object.keys(shipped).length);
  const licenceOf = (path: string) => {
    const { license, licenses } = jsonOf<Manifest & { licenses?: { type: string }[] }>(`${path}/package.json`);
    return license ?? licenses?.[0]?.type ?? "none";
  };
  expect(needed.filter((path) => !FREE.has(licenceOf(path)))).toEqual([]);
});
