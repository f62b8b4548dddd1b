// Indexes and compares the example campaign in every engine that is at hand and holds all files that they write against
// each other, byte by byte: the Node that runs this, those pinned in this folder, Deno on the build and on the sources.
// Paths of other Node programs may follow: `npm run check:engines -- /opt/node26/bin/node`.
import { spawn } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../../../", import.meta.url));
const { optionalDependencies } = JSON.parse(readFileSync(new URL("package.json", import.meta.url), "utf8"));
const deno = ["run", "--allow-all", "--no-lock"];
const built = "bin/tg-hydrates.js";

const pinned = Object.keys(optionalDependencies).filter((name) =>
  name.endsWith(`-${process.platform}-${process.arch}`),
);
const engines = [
  { program: process.execPath, before: [built] },
  ...pinned.map((name) => ({
    program: fileURLToPath(new URL(`node_modules/${name}/bin/node`, import.meta.url)),
    before: [built],
  })),
  ...process.argv.slice(2).map((program) => ({ program, before: [built] })),
  { program: "deno", before: [...deno, "--node-modules-dir=manual", built] },
  { program: "deno", before: [...deno, "src/cli/main.ts"], note: ", sources" },
];
if (pinned.length === 0) {
  console.log(`No other Node is pinned for ${process.platform} ${process.arch}: name programs after --`);
}
const missing = engines.filter(({ program }) => program.startsWith(root) && !existsSync(program));
if (missing.length > 0) {
  console.error("The pinned engines are not installed: npm ci --prefix test/tools/engines");
  process.exit(2);
}

const example = "fixtures/example";
const commands = [
  ["index", example],
  ["compare", example, "--reference", "sealed", "--properties", `${example}/properties.csv`],
];

/** Runs a program in the repository, gives what it prints, and stops everything if it fails. */
function run(program, args) {
  return new Promise((done, fail) => {
    const child = spawn(program, args, { cwd: root, env: { ...process.env, NO_COLOR: "1", DENO_DIR: "out/deno" } });
    const parts = { stdout: [], stderr: [] };
    for (const stream of ["stdout", "stderr"]) child[stream].on("data", (bytes) => parts[stream].push(bytes));
    child.on("error", fail);
    child.on("close", (status) => {
      const [out, err] = [parts.stdout, parts.stderr].map((list) => Buffer.concat(list));
      if (status === 0) done(out);
      else fail(new Error(`${program} ${args.join(" ")} ended with ${status}\n${out}${err}`));
    });
  });
}

/** What an engine writes and prints for the example: name → bytes. */
async function resultsOf({ program, before }, folder) {
  const results = new Map();
  for (const [command, ...rest] of commands) {
    const out = `${folder}/${command}`;
    results.set(`${command}, printed`, await run(program, [...before, command, ...rest, "--out", out]));
    const entries = readdirSync(join(root, out), { recursive: true, withFileTypes: true });
    for (const entry of entries.filter((one) => one.isFile())) {
      const path = join(entry.parentPath, entry.name);
      results.set(path.slice(join(root, folder).length + 1).replaceAll("\\", "/"), readFileSync(path));
    }
  }
  return results;
}

/** The first place at which two sets of files differ, in words; null if nowhere. */
function firstDifference(first, other) {
  for (const name of [...new Set([...first.keys(), ...other.keys()])].sort()) {
    const [a, b] = [first.get(name), other.get(name)];
    if (a === undefined || b === undefined) return `${name} is written by one only`;
    if (a.equals(b)) continue;
    const at = a.findIndex((byte, i) => byte !== b[i]);
    const start = at < 0 ? a.length : at;
    const line = a.subarray(0, start).filter((byte) => byte === 10).length + 1;
    const about = (bytes) => JSON.stringify(bytes.subarray(Math.max(0, start - 20), start + 20).toString());
    return `${name}, line ${line}: ${about(a)} became ${about(b)}`;
  }
  return null;
}

const folder = "out/engines";
rmSync(join(root, folder), { recursive: true, force: true });
mkdirSync(join(root, folder), { recursive: true });
const ended = await Promise.all(
  engines.map(async (engine, i) => {
    const [version] = (await run(engine.program, ["--version"])).toString().split("\n");
    const label = `${version.replace(/^v/, "Node ").replace(/^deno (\S+).*/, "Deno $1")}${engine.note ?? ""}`;
    return { label, results: await resultsOf(engine, `${folder}/${i}`) };
  }),
);
const [{ results: reference }] = ended;
let differing = 0;
console.log(`${"engine".padEnd(22)} files  ${"SHA-256 of names and bytes".padEnd(64)}  judgement`);
for (const { label, results } of ended) {
  const hash = createHash("sha256");
  for (const [name, bytes] of [...results].sort(([a], [b]) => (a < b ? -1 : 1))) {
    hash.update(`${name} ${bytes.length}\n`).update(bytes);
  }
  const difference = firstDifference(reference, results);
  if (difference !== null) differing++;
  const judgement = results === reference ? "the reference" : (difference ?? "identical");
  console.log(`${label.padEnd(22)} ${String(results.size).padStart(5)}  ${hash.digest("hex")}  ${judgement}`);
}
if (differing > 0) {
  console.error(
    `${differing} of ${engines.length} engines write other bytes than the first; all files are in ${folder}`,
  );
  process.exitCode = 1;
}
