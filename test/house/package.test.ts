import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { dirname, join } from "node:path";
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
const engines = jsonOf<Manifest>("test/tools/engines/package.json");
const shipped = { ...manifest.dependencies, ...manifest.optionalDependencies, ...manifest.peerDependencies };
/** A package for development that a user may have too is named with those of the library. */
const developing = Object.fromEntries(
  Object.entries(manifest.devDependencies ?? {}).filter(([name]) => !(name in shipped)),
);

/** The rows of the table under a heading of a paper: package, without its backticks → licence and reason. */
function tableUnder(file: string, heading: string): Map<string, { licence: string; why: string }> {
  const section = textOf(file).split(`\n## ${heading}\n`)[1]?.split("\n## ")[0];
  if (section === undefined) throw new Error(`${file} has no section "${heading}"`);
  const rows = section.matchAll(/^\| `([^`]+)` \| ([^|]+) \| (.+) \|$/gm);
  return new Map([...rows].map(([, name, licence, why]) => [name!, { licence: licence!, why: why! }]));
}

/** What the locks say of the packages that the manifests beside them name: package → the licences of its versions. */
function lockedLicences(): Map<string, Set<string>> {
  const licences = new Map<string, Set<string>>();
  for (const folder of ["", "test/tools/", "test/tools/engines/"]) {
    const { packages } = jsonOf<Lock>(`${folder}package-lock.json`);
    for (const alias of Object.keys(pinsOf(jsonOf<Manifest>(`${folder}package.json`)))) {
      const { name = alias, license } = packages[`node_modules/${alias}`]!;
      const known = licences.get(name) ?? new Set();
      // Older Node packages state it in their LICENSE only.
      licences.set(name, license === undefined ? known : known.add(license));
    }
  }
  return licences;
}

interface Lock {
  packages: Record<string, { name?: string; license?: string }>;
}

function pinsOf({ dependencies, devDependencies, optionalDependencies, peerDependencies }: Manifest) {
  return { ...dependencies, ...devDependencies, ...optionalDependencies, ...peerDependencies };
}

/** The packages behind the names under which they are installed. */
function namesOf(pins: Record<string, string>): string[] {
  return [...new Set(Object.entries(pins).map(([name, pin]) => /^npm:(.+)@/.exec(pin)?.[1] ?? name))];
}

test.for([
  ["package.json", manifest],
  ["test/tools/package.json", tools],
  ["test/tools/engines/package.json", engines],
] as const)("every package in %s is pinned to one version", ([, named]) => {
  const pinned = pinsOf(named);
  expect(Object.keys(pinned).length).toBeGreaterThan(0);
  for (const wanted of Object.values(pinned)) expect(wanted).toMatch(/^(npm:[a-z0-9-]+@)?\d+\.\d+\.\d+$/);
});

test.for([
  ["README.md", shipped],
  ["DEVELOPERS.md", { ...developing, ...tools.devDependencies, ...engines.optionalDependencies }],
] as const)("%s names every package with its licence and its reason, and no other", ([file, packages]) => {
  const rows = tableUnder(file, "Dependencies");
  expect([...rows.keys()].sort()).toEqual(namesOf(packages).sort());
  const licences = lockedLicences();
  for (const [name, { licence, why }] of rows) {
    expect([name, licence]).toEqual([name, [...licences.get(name)!].join()]);
    expect(why.length).toBeGreaterThan(20);
    // What is installed says it too.
    const installed = `node_modules/${name}/package.json`;
    if (existsSync(root + installed)) expect([name, jsonOf<Manifest>(installed).license]).toEqual([name, licence]);
  }
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
  for (const file of ["package-lock.json", "test/tools/package-lock.json", "test/tools/engines/package-lock.json"])
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

/** Every kind of file that may be in the tarball; what else gets in is a mistake. */
const PACKED = [
  /^(README|CHANGELOG|DEVELOPERS)\.md$|^LICENSE$|^package\.json$/,
  /^bin\/tg-hydrates\.js$/,
  /^dist\/(index|node|notebook|cli|worker)\.js$/,
  /^dist\/chunks\/[A-Za-z]+-[A-Z0-9]{8}\.js$/,
  /^dist\/([a-z]+\/)*[A-Za-z]+\.d\.ts$/,
  /^dist\/schema\/(protocol|campaign)\.schema\.json$/,
  /^dist\/THIRD-PARTY\.txt$/,
  // The README sends readers there.
  /^src\/(API|METHODS)\.md$/,
  /^fixtures\/(COOKBOOK\.md|expected\/figures\/ages\.svg)$/,
];

test("the tarball holds what its entry points reach and the papers, nothing else, and is small", () => {
  const { stdout, stderr } = spawnSync("npm", ["pack", "--dry-run", "--json", "--ignore-scripts"], {
    cwd: root,
    encoding: "utf8",
    shell: process.platform === "win32",
  });
  if (!stdout) throw new Error(stderr);
  const [packed] = JSON.parse(stdout) as [{ size: number; unpackedSize: number; files: { path: string }[] }];
  const paths = packed.files.map(({ path }) => path);
  expect(paths.filter((path) => !PACKED.some((kind) => kind.test(path)))).toEqual([]);
  expect(PACKED.filter((kind) => !paths.some((path) => kind.test(path)))).toEqual([]);

  // Who has only the package can follow the README all the same.
  const targets = [...textOf("README.md").matchAll(/\]\((?!https?:)([^)#]+)|<img src="([^"]+)"/g)].map(
    ([, link, image]) => (link ?? image)!,
  );
  expect(targets.length).toBeGreaterThan(5);
  expect(targets.filter((path) => !paths.includes(path))).toEqual([]);

  const reached = new Set<string>();
  const reach = (path: string) => {
    if (reached.has(path)) return;
    reached.add(path);
    for (const [, name] of textOf(path).matchAll(/(?:from|import) ?\(?"(\.[^"]+)"/g)) {
      const target = join(dirname(path), name!).replaceAll("\\", "/");
      reach(path.endsWith(".d.ts") ? target.replace(/\.[jt]s$/, ".d.ts") : target);
    }
  };
  const faces = Object.values(manifest.exports).flatMap((target) =>
    typeof target === "string" ? [] : Object.values(target),
  );
  for (const file of [...faces.map((path) => path.slice(2)), "dist/cli.js", "dist/worker.js"]) reach(file);
  const code = paths.filter((path) => /^dist\/.*\.(js|ts)$/.test(path));
  expect(code.sort()).toEqual([...reached].sort());

  // House limits, a fifth above what it was (710 kB, 2774 kB): growth beyond is to be meant.
  expect(packed.size).toBeLessThan(850_000);
  expect(packed.unpackedSize).toBeLessThan(3_300_000);
});

/** Licences that may go into a package under the MIT licence with no more than their notice. */
const FREE = new Set(["MIT", "ISC", "CC0-1.0", "BSD-2-Clause", "BSD-3-Clause", "Apache-2.0", "0BSD", "Unlicense"]);

test("the licence is the same in every paper, and every package that is shipped with or needed allows it", () => {
  expect(textOf("LICENSE")).toMatch(/^MIT License\n/);
  expect([manifest.license, tools.license, engines.license]).toEqual(["MIT", "MIT", "MIT"]);
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
