// Somebody who has three exports and the README: an empty folder, the packed package, then the README's own lines in their
// order, each with the seconds that it took. The exports are invented and of another shape than the fixtures: made here, from
// steps in closed form, without the library. So the README is held too: a line that does not work stops this.
import { spawnSync } from "node:child_process";
import { copyFileSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../../", import.meta.url));

/** Sections of the README that are followed. */
const followed = ["Your own runs", "What comes out"];

/** Steps as [middle °C, width °C, % of the initial mass]; the three runs differ in the first and third. */
const runs = {
  "0417.csv": {
    steps: [
      [108, 10, 19.0],
      [182, 12, 3.1],
      [266, 9, 6.2],
      [690, 20, 1.8],
    ],
    initial_mg: 24.6,
  },
  "0418.csv": {
    steps: [
      [108, 10, 19.4],
      [182, 12, 3.1],
      [266, 9, 6.4],
      [690, 20, 1.8],
    ],
    initial_mg: 23.9,
  },
  "0419.csv": {
    steps: [
      [108, 10, 16.1],
      [182, 12, 2.6],
      [266, 9, 4.9],
      [690, 20, 3.0],
    ],
    initial_mg: 25.2,
  },
};

/** % of the initial mass that is left at T. */
function left({ steps }, T) {
  return 100 - steps.reduce((sum, [middle, width, loss]) => sum + loss / (1 + Math.exp((middle - T) / width)), 0);
}

/** g per 100 g of ignited mass that a run loses between two temperatures. */
function trueIndex(run, from, to) {
  return (100 * (left(run, from) - left(run, to))) / left(run, 950);
}

/** The same above a straight DTG baseline, whose ends are slopes fitted over 10 °C about the edges. */
function trueArea(run, from, to) {
  const slope = (edge) => {
    const offsets = Array.from({ length: 21 }, (_, i) => i / 2 - 5);
    const squares = offsets.reduce((sum, d) => sum + d * d, 0);
    return -offsets.reduce((sum, d) => sum + d * left(run, edge + d), 0) / squares;
  };
  return trueIndex(run, from, to) - (100 * (slope(from) + slope(to)) * (to - from)) / 2 / left(run, 950);
}

/** Windows of the built-in protocol, each with what is true of it. */
const truths = {
  "aft-afm": (run) => trueIndex(run, 50, 220),
  ah3: (run) => trueArea(run, 220, 350),
  carbonate: (run) => trueIndex(run, 600, 850),
  "bound-water": (run) => trueIndex(run, 50, 550),
};

/** Semicolons, decimal commas, minutes, the mass before the temperature, line ends of two bytes, every 6 s. */
function exportOf(run, seed) {
  let state = seed;
  const scatter = (size) => {
    state = (state * 16807) % 2147483647;
    return size * (state / 2147483647 - 0.5);
  };
  const rows = ["Probe;erfunden", "", "Zeit / min;Masse / mg;Temperatur / °C"];
  for (let i = 0; i <= 965; i++) {
    const T = 25 + i + scatter(0.2);
    const mass = (run.initial_mg * left(run, T)) / 100 + scatter(0.004);
    rows.push([(i / 10).toFixed(1), mass.toFixed(4), T.toFixed(2)].map((cell) => cell.replace(".", ",")).join(";"));
  }
  return rows.join("\r\n");
}

/** Fenced blocks of the sections that are followed: `sh` is run, a block that names a file is written. */
function blocksOf(readme) {
  return followed.flatMap((heading) => {
    const section = readme.split(`\n## ${heading}\n`)[1]?.split("\n## ")[0];
    if (section === undefined) throw new Error(`README.md has no section "${heading}"`);
    const blocks = [...section.matchAll(/^```(\w+) ?(\S*)\n([\s\S]*?)^```$/gm)];
    if (!blocks.some(([, language]) => language === "sh")) throw new Error(`"${heading}" has nothing to run`);
    return blocks.map(([, language, file, text]) => ({ language, file, text }));
  });
}

/** Rows of a CSV file whose cells hold no comma, by column. */
function rowsOf(file) {
  const [heading, ...lines] = readFileSync(file, "utf8").trimEnd().split("\n");
  const names = heading.split(",");
  return lines.map((line) => Object.fromEntries(line.split(",").map((cell, i) => [names[i], cell])));
}

function expectThat(holds, sentence) {
  if (!holds) throw new Error(`not so: ${sentence}`);
  console.log(`ok  ${sentence}`);
}

/**
 * Follows the README in an empty folder.
 *
 * @param {string} folder An empty folder.
 * @param {string} tarball The packed package.
 */
function stranger(folder, tarball) {
  copyFileSync(tarball, join(folder, basename(tarball)));
  mkdirSync(join(folder, "my-runs"));
  for (const [i, [name, run]] of Object.entries(runs).entries()) {
    writeFileSync(join(folder, "my-runs", name), exportOf(run, 11 + i));
  }
  const env = { ...process.env, NO_COLOR: "1", npm_config_audit: "false", npm_config_fund: "false" };
  const seconds = [];
  const said = {};
  for (const { language, file, text } of blocksOf(readFileSync(join(root, "README.md"), "utf8"))) {
    if (language !== "sh") {
      mkdirSync(dirname(join(folder, file)), { recursive: true });
      writeFileSync(join(folder, file), text);
      continue;
    }
    for (const line of text.trimEnd().split("\n")) {
      const start = performance.now();
      const { status, stdout, stderr } = spawnSync("bash", ["-c", line], { cwd: folder, env, encoding: "utf8" });
      seconds.push([(performance.now() - start) / 1000, line]);
      if (status !== 0) throw new Error(`the README's line\n  ${line}\nended with ${status}\n${stdout}${stderr}`);
      const [, what] = /^(?:npx tg-hydrates )?(\w+)/.exec(line);
      said[what] = stdout;
    }
  }

  expectThat(/semicolon, decimal comma/.test(said.read), "a stranger's export is understood");
  const names = readdirSync(join(folder, "results"));
  for (const name of ["ages.csv", "losses.csv", "runs.csv", "campaign.json", "datapackage.json", "report.html"]) {
    expectThat(names.includes(name), `the README's lines make ${name}`);
  }
  expectThat(
    /K1, film\n.*\(2\)/.test(said.index) && /K1, open\n.*\(1\)/.test(said.index),
    "the table has both regimes",
  );
  const ages = rowsOf(join(folder, "results/ages.csv"));
  const { "0417.csv": one, "0418.csv": two, "0419.csv": other } = runs;
  for (const [curing, specimens] of Object.entries({ film: [one, two], open: [other] })) {
    for (const [window, truthOf] of Object.entries(truths)) {
      const truth = specimens.reduce((sum, run) => sum + truthOf(run), 0) / specimens.length;
      const row = ages.find((each) => each.curing === curing && each.window === window);
      expectThat(
        Math.abs(Number(row.index) - truth) < 0.05,
        `${window} of ${curing} is ${Number(row.index).toFixed(3)}, in truth ${truth.toFixed(3)} g per 100 g`,
      );
    }
  }
  const figure = readFileSync(join(folder, "results/figures/ages-k1-aft-afm.svg"), "utf8");
  expectThat(figure.includes(">film<") && figure.includes(">open<"), "a figure names both regimes");
  const page = readFileSync(join(folder, "results/report.html"), "utf8");
  expectThat(
    page.includes("<svg") && page.includes("K1") && !/<(?:script|link|img)\b/.test(page),
    "the report stands alone",
  );
  expectThat(said.compare.includes("WHAT IS SHOWN"), "the comparison prints what is shown");
  expectThat(readdirSync(join(folder, "compared")).includes("contrasts.csv"), "the comparison writes its tables");

  console.log("\nfrom an empty folder to table, figure and report:");
  for (const [took, line] of seconds) console.log(`${took.toFixed(1).padStart(6)} s  ${line}`);
  console.log(
    `${seconds
      .reduce((sum, [took]) => sum + took, 0)
      .toFixed(1)
      .padStart(6)} s  in all`,
  );
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const folder = mkdtempSync(join(tmpdir(), "tg-hydrates-stranger-"));
  try {
    const args = ["pack", "--ignore-scripts", "--silent", "--pack-destination", folder];
    const { status, stdout, stderr } = spawnSync("npm", args, { cwd: root, encoding: "utf8" });
    if (status !== 0) throw new Error(`npm pack ended with ${status}\n${stderr}`);
    const project = join(folder, "project");
    mkdirSync(project);
    stranger(project, join(folder, stdout.trim()));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
