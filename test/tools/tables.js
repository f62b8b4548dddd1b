// Runs the example of the cookbook's recipe "Reading ages.csv elsewhere", as it stands there, on the example campaign, and looks
// at what it made. Stops where it does not hold.
import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../../", import.meta.url));
const cookbook = readFileSync(join(root, "fixtures/COOKBOOK.md"), "utf8");
const [, example] = /\n## Reading ages\.csv elsewhere\n(?:(?!\n## ).)*?\n```js\n(.*?)```/s.exec(cookbook) ?? [];
if (example === undefined) throw new Error("COOKBOOK.md has no example under Reading ages.csv elsewhere");

// Inside this folder, so that its packages are found.
mkdirSync(join(root, "out"), { recursive: true });
const folder = mkdtempSync(fileURLToPath(new URL(".tables-", import.meta.url)));

function run(...args) {
  const { status, stdout, stderr } = spawnSync(process.execPath, args, { cwd: folder, encoding: "utf8" });
  if (status !== 0) throw new Error(`${args.join(" ")} ended with ${status}\n${stdout}${stderr}`);
  return stdout;
}

function expectThat(holds, sentence) {
  if (!holds) throw new Error(`not so: ${sentence}`);
  console.log(`ok  ${sentence}`);
}

try {
  run(
    join(root, "bin/tg-hydrates.js"),
    "index",
    join(root, "fixtures/example"),
    "--out",
    "out/example",
    "--no-figures",
  );
  writeFileSync(join(folder, "example.mjs"), example);
  const printed = run("example.mjs");
  console.log(printed);

  // What the tables say, read without the library and without the description.
  const [heading, ...lines] = readFileSync(join(folder, "out/example/ages.csv"), "utf8").trimEnd().split("\n");
  const names = heading.split(",");
  const wanted = lines
    .map((line) => Object.fromEntries(line.split(",").map((cell, i) => [names[i], cell])))
    .filter(({ mix, window, index_lo95 }) => mix === "M1" && window === "ah3" && index_lo95 !== "");
  expectThat(wanted.length > 5, "ages.csv has intervals of AH3");
  const rows = printed.split("\n");
  const absent = wanted.filter(({ curing, age_d, index }) => {
    return !rows.some((row) => [curing, `│ ${age_d} `, `│ ${index} `].every((cell) => row.includes(cell)));
  });
  expectThat(absent.length === 0, `all ${wanted.length} of them are printed with regime, age and index`);
  const svg = readFileSync(join(folder, "out/example/ah3.svg"), "utf8");
  const marks = [...svg.matchAll(/aria-roledescription="point"/g)].length;
  expectThat(marks === wanted.length, `the picture has a point for each: ${marks}`);
  expectThat(
    svg.includes("Index (g/100 g)") && svg.includes("Age (d)"),
    "its axes carry titles and units of the description",
  );
  // A picture to look at outlives the test.
  writeFileSync(join(root, "out/tables.svg"), svg);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
