// Packs the package, looks at it as its users get it, and uses it: installed by the README's own lines into an empty folder,
// from its command, from Node and from Deno. Stops at the first thing that does not hold.
import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { stranger } from "./stranger.js";

const root = fileURLToPath(new URL("../../", import.meta.url));
const { name, version, exports: entries } = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
const folder = mkdtempSync(join(tmpdir(), "tg-hydrates-installed-"));

/** Runs a program in the empty folder and gives what it wrote; stops if it did not end as expected. */
function run(program, args, { cwd = folder, status = 0 } = {}) {
  const ended = spawnSync(program, args, { cwd, encoding: "utf8" });
  if (ended.error) throw ended.error;
  if (ended.status !== status) {
    throw new Error(`${program} ${args.join(" ")} ended with ${ended.status}\n${ended.stdout}${ended.stderr}`);
  }
  return ended.stdout;
}

function expectThat(holds, sentence) {
  if (!holds) throw new Error(`not so: ${sentence}`);
  console.log(`ok  ${sentence}`);
}

try {
  const tarball = join(folder, `${name}-${version}.tgz`);
  run("npm", ["pack", "--ignore-scripts", "--pack-destination", folder], { cwd: root });
  expectThat(existsSync(tarball), "npm packs it");
  // ES modules only: what CommonJS and resolution as before Node 12 would make of it is not asked.
  run("attw", [tarball, "--profile", "esm-only", "--no-color"]);
  expectThat(true, "consumers resolve every entry point to code and types (attw)");

  const project = join(folder, "project");
  mkdirSync(project);
  stranger(project, tarball);
  const command = join(project, "node_modules", ".bin", "tg-hydrates");
  expectThat(run(command, ["--version"], { cwd: project }).trim() === version, "the command says its version");
  run(command, ["no-such-command"], { cwd: project, status: 2 });
  expectThat(true, "a misspelt command ends with 2");
  const documents = Object.values(entries).filter((target) => typeof target === "string");
  for (const file of documents) {
    expectThat(existsSync(join(project, "node_modules", name, file)), `${file} is in the package`);
  }

  const faces = Object.keys(entries).filter((entry) => typeof entries[entry] !== "string");
  const imports = faces.map((entry, i) => `import * as face${i} from "${entry.replace(".", name)}";`);
  const counts = faces.map((_, i) => `Object.keys(face${i}).length`).join(", ");
  writeFileSync(join(project, "use.mjs"), `${imports.join("\n")}\nconsole.log([${counts}].join(" "));\n`);
  const inNode = run(process.execPath, ["use.mjs"], { cwd: project });
  expectThat(/^[1-9]\d*( [1-9]\d*)*\n$/.test(inNode), `${faces.length} entry points import in Node`);
  const inDeno = run("deno", ["run", "--allow-all", "--node-modules-dir=manual", "use.mjs"], { cwd: project });
  expectThat(inDeno === inNode, "the same entry points import in Deno");
} finally {
  rmSync(folder, { recursive: true, force: true });
}
