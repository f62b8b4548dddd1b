// Mutation testing: breaks the sources of a folder in small ways, one at a time, and looks whether a test of that folder
// notices (Stryker). `node mutation.js [folder or file ...]`, few files at a time: what is known of unchanged sources and tests
// stays in out/mutation/ and is not run again. `report` only counts what is known. Exits non-zero where fewer than LEAST % of the
// mutants are noticed.
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { Stryker } from "@stryker-mutator/core";

const LEAST = 85;
/** Size of the sources that are done in one go, bytes. */
const BATCH = 15_000;
const folders = ["losses", "phases", "campaign"];
const asked = process.argv.slice(2);
process.chdir(fileURLToPath(new URL("../../", import.meta.url)));
mkdirSync("out/mutation", { recursive: true });

const incrementalFile = (folder) => `out/mutation/${folder}.json`;
const sources = (folder) => readdirSync(`src/${folder}`).filter((name) => !/types\.ts$/i.test(name));

function batches(folder) {
  const all = [[]];
  let size = 0;
  for (const file of sources(folder).map((name) => `src/${folder}/${name}`)) {
    if (size > BATCH) {
      all.push([]);
      size = 0;
    }
    all.at(-1).push(file);
    size += statSync(file).size;
  }
  return all;
}

async function run(folder, mutate) {
  process.env.MUTATED = folder;
  await new Stryker({
    mutate,
    testRunner: "vitest",
    vitest: { configFile: "test/tools/vitest.mutation.config.ts", related: false },
    coverageAnalysis: "perTest",
    ignoreStatic: process.env.STATIC === undefined,
    concurrency: Number(process.env.CONCURRENCY ?? 2),
    incremental: true,
    incrementalFile: incrementalFile(folder),
    reporters: ["progress-append-only"],
    allowConsoleColors: false,
    tempDirName: "out/mutation/sandboxes",
    ignorePatterns: ["/out", "/dist", "/coverage", "/.git", "/test/tools/node_modules"],
    // Endless loops are found by counting; the clock is only for what even that does not see.
    timeoutMS: 300_000,
  }).runMutationTest();
}

/** Every mutant of every folder, whether it was noticed, in one file; what lives in lines that can be read. */
function report() {
  const files = {};
  const counts = {};
  const alive = [];
  for (const folder of folders.filter((name) => existsSync(incrementalFile(name)))) {
    const known = JSON.parse(readFileSync(incrementalFile(folder), "utf8"));
    const of = { noticed: 0, unnoticed: 0 };
    counts[folder] = of;
    for (const [name, { source, mutants }] of Object.entries(known.files)) {
      files[name] = { mutants: mutants.map(({ coveredBy, killedBy, static: _, ...mutant }) => mutant) };
      const lines = source.split("\n");
      for (const { status, location, mutatorName, replacement } of mutants) {
        if (status === "Killed" || status === "Timeout") of.noticed++;
        else if (status === "Survived" || status === "NoCoverage") {
          of.unnoticed++;
          const { line, column } = location.start;
          const text = lines[line - 1].trim();
          alive.push(
            `${name}:${line}:${column} ${status} ${mutatorName}\n  ${text}\n  → ${replacement.split("\n")[0]}`,
          );
        }
      }
    }
  }
  writeFileSync("out/mutation/mutation.json", JSON.stringify({ counts, files }, null, 1));
  writeFileSync("out/mutation/alive.txt", `${alive.join("\n")}\n`);
  const share = ({ noticed, unnoticed }) =>
    `${((100 * noticed) / (noticed + unnoticed)).toFixed(1)} % (${noticed} of ${noticed + unnoticed})`;
  const all = { noticed: 0, unnoticed: 0 };
  for (const { noticed, unnoticed } of Object.values(counts)) {
    all.noticed += noticed;
    all.unnoticed += unnoticed;
  }
  const each = Object.entries(counts).map(([folder, count]) => `${folder} ${share(count)}`);
  console.log(`mutants noticed: ${share(all)}; ${each.join(", ")}; those alive: out/mutation/alive.txt`);
  return (100 * all.noticed) / (all.noticed + all.unnoticed);
}

for (const name of asked.length > 0 ? asked : folders) {
  if (folders.includes(name)) for (const files of batches(name)) await run(name, files);
  else if (name.startsWith("src/")) await run(name.split("/")[1], [name]);
  else if (name !== "report")
    throw new Error(`Name one of ${folders.join(", ")}, a file in them or report, not ${name}`);
}
if (report() < LEAST) process.exitCode = 1;
