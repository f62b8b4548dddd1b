// One table of what speaks for the package: mutation score, coverage of the core, audit, size of the tarball. A report that
// is missing, or older than what it is about, is made anew, which takes its time; --quick takes what is there and says
// from when it is. `--reports DIR` looks for the reports there instead of in out/.
import { spawnSync } from "node:child_process";
import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../../", import.meta.url));
const quick = process.argv.includes("--quick");
const json = (file) => JSON.parse(readFileSync(join(root, file), "utf8"));
const { scripts } = json("package.json");
const reports = process.argv.includes("--reports")
  ? process.argv[process.argv.indexOf("--reports") + 1]
  : join(root, "out");
const shell = process.platform === "win32";

/** When the newest source, test or setting was changed. */
function newest() {
  const files = ["package-lock.json", "vitest.config.ts", "tsconfig.json"];
  for (const folder of ["src", "test", "fixtures"]) {
    for (const entry of readdirSync(join(root, folder), { recursive: true, encoding: "utf8" })) {
      if (!/(^|[\\/])(node_modules|tools)([\\/]|$)/.test(entry)) files.push(join(folder, entry));
    }
  }
  return Math.max(
    ...files.map((file) => statSync(join(root, file))).map((stats) => (stats.isFile() ? stats.mtimeMs : 0)),
  );
}

/** A report with its age; null where there is none. Made by a script where it is missing or stale. */
function report(file, script) {
  const path = join(reports, file);
  let failed = false;
  const from = () => (existsSync(path) ? statSync(path).mtimeMs : 0);
  if (!quick && from() < newest() && scripts[script]) {
    console.error(
      `npm run ${script}: ${from() === 0 ? "there is no report yet" : "the report is older than the sources"}`,
    );
    // What it prints goes to stderr, so that the table stands alone.
    failed = spawnSync("npm", ["run", script], { cwd: root, stdio: ["ignore", 2, 2], shell }).status !== 0;
  }
  if (from() === 0) return null;
  const notes = [from() < newest() ? ", older than the sources" : "", failed ? `, npm run ${script} failed` : ""];
  const time = new Date(from()).toISOString().slice(0, 16).replace("T", " ");
  return { content: JSON.parse(readFileSync(path, "utf8")), from: `of ${time} UTC${notes.join("")}`, failed };
}

const percent = (part, whole) => (whole === 0 ? "nothing to count" : `${((100 * part) / whole).toFixed(1)} %`);
const isCore = (path) => !/src\/(files|draw|show|cli)\/|src\/(node|notebook)\.ts$/.test(path.replaceAll("\\", "/"));

/** Killed and timed out of all that a test could have seen: the words of the mutation-testing report schema. */
function mutationRow() {
  const made = report("mutation/mutation.json", "mutation");
  if (made === null) return ["not measured", "npm run mutation", false];
  const counts = {};
  for (const { mutants } of Object.values(made.content.files)) {
    for (const { status } of mutants) counts[status] = (counts[status] ?? 0) + 1;
  }
  const of = (...names) => names.reduce((sum, name) => sum + (counts[name] ?? 0), 0);
  const detected = of("Killed", "Timeout");
  const valid = detected + of("Survived", "NoCoverage");
  const detail = `${detected} of ${valid} mutants in ${Object.keys(made.content.files).length} files, ${of("NoCoverage")} without a test`;
  return [percent(detected, valid), `${detail}; ${made.from}`, valid > 0 && !made.failed];
}

function coverageRows() {
  const made = report("coverage/coverage-summary.json", "coverage");
  const kinds = ["lines", "branches"];
  if (made === null) return kinds.map((kind) => [kind, "not measured", "npm run coverage", false]);
  const core = Object.entries(made.content).filter(([path]) => path !== "total" && isCore(path));
  return kinds.map((kind) => {
    const sum = (what) => core.reduce((total, [, file]) => total + file[kind][what], 0);
    const detail = `${sum("covered")} of ${sum("total")} in ${core.length} files; everywhere ${made.content.total[kind].pct} %`;
    return [kind, percent(sum("covered"), sum("total")), `${detail}; ${made.from}`, core.length > 0 && !made.failed];
  });
}

function auditRow() {
  const { stdout, status } = spawnSync(process.execPath, [join(root, "test/tools/audit.js")], { encoding: "utf8" });
  const [first] = stdout.split("\n");
  const [verdict, detail] = first.split(": ");
  return [status === 0 ? verdict : "FAULTS FOUND", detail ?? "", status === 0];
}

function sizeRow() {
  // What the sources are now, not what was built before.
  if (!quick) spawnSync("npm", ["run", "build"], { cwd: root, stdio: ["ignore", 2, 2], shell });
  const { stdout } = spawnSync("npm", ["pack", "--dry-run", "--json", "--ignore-scripts"], {
    cwd: root,
    encoding: "utf8",
    shell,
  });
  const [{ size, unpackedSize, entryCount }] = JSON.parse(stdout);
  const kB = (bytes) => `${Math.round(bytes / 1000)} kB`;
  return [kB(size), `unpacked ${kB(unpackedSize)}, ${entryCount} files`, true];
}

const rows = [
  ["mutation score", ...mutationRow()],
  ...coverageRows().map(([kind, ...rest]) => [`coverage of the core, ${kind}`, ...rest]),
  ["audit of what is shipped", ...auditRow()],
  ["tarball", ...sizeRow()],
];
const widths = [0, 1].map((column) => Math.max(...rows.map((row) => row[column].length)));
for (const [what, value, detail, holds] of rows) {
  console.log(`${what.padEnd(widths[0])}  ${value.padEnd(widths[1])}  ${detail}`);
  if (!holds) process.exitCode = 1;
}
