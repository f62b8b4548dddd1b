// Mutation testing: breaks the sources of a folder in small ways, one at a time, and looks whether a test of that folder
// notices (Stryker). `node mutation.js [folder ...]`; what is known of unchanged sources and tests is not run again.
// Mutants of values that a module makes once, when it is loaded, need every module anew: they are a part of their own.
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { Stryker } from "@stryker-mutator/core";

const folders = ["losses", "phases", "campaign"];
const asked = process.argv.slice(2);
process.chdir(fileURLToPath(new URL("../../", import.meta.url)));
mkdirSync("out/mutation", { recursive: true });

async function run(folder) {
  process.env.MUTATED = folder;
  await new Stryker({
    mutate: [`src/${folder}/**/*.ts`],
    testRunner: "vitest",
    vitest: { configFile: "test/tools/vitest.mutation.config.ts", related: false },
    coverageAnalysis: "perTest",
    ignoreStatic: true,
    concurrency: Number(process.env.CONCURRENCY ?? 2),
    incremental: true,
    incrementalFile: `out/mutation/${folder}.incremental.json`,
    reporters: ["json", "progress-append-only"],
    jsonReporter: { fileName: `out/mutation/${folder}.json` },
    allowConsoleColors: false,
    tempDirName: "out/mutation/sandboxes",
    ignorePatterns: ["/out", "/dist", "/coverage", "/.git", "/test/tools/node_modules"],
    // Endless loops are found by counting; the clock is only for what even that does not see.
    timeoutMS: 300_000,
  }).runMutationTest();
}

for (const folder of asked.length > 0 ? asked : folders) await run(folder);
