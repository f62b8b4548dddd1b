import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { availableParallelism, tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { campaignTexts } from "./campaignTexts.js";
import { spread } from "./spread.js";

const command = fileURLToPath(new URL("../../bin/tg-hydrates.js", import.meta.url));
const memory = fileURLToPath(new URL("./memory.cjs", import.meta.url));
/** What a practitioner would write with pandas, NumPy and SciPy; beside the checkout, and not everywhere. */
const pipeline = fileURLToPath(new URL("../../../shared/bench/numpy_pipeline.py", import.meta.url));
/** Texts that are simulated; the others differ from these by a line above the table. */
const DISTINCT = 50;

/**
 * Whole processes over a folder of runs with its sheet: `index` with all tables and JSON, and in turns with it the yardstick in
 * Python with one process and with two, where Python with pandas and SciPy is present.
 *
 * @param {{ sizes: number[], rows: number, rounds: number, seed: number }} options `sizes`: numbers of runs; the yardstick
 * runs over the first.
 * @returns {{ lines: string[], result: object }} A table, and seconds and MB of every round.
 */
export function folder({ sizes, rows, rounds, seed }) {
  const root = mkdtempSync(join(tmpdir(), "tg-hydrates-bench-"));
  const texts = campaignTexts({ runs: DISTINCT, rows, seed });
  try {
    const python = [undefined, "/usr/bin/python3", "python3"].find((name) => name && canRun(name));
    const folders = new Map(sizes.map((runs) => [runs, fill(join(root, String(runs)), texts, runs)]));
    const jobs = new Map();
    for (const runs of sizes) jobs.set(`index, ${runs} runs`, () => own(folders.get(runs), root));
    const [first] = sizes;
    for (const threads of [1, 2]) {
      jobs.set(`index, ${first} runs, --jobs ${threads}`, () =>
        own(folders.get(first), root, ["--jobs", `${threads}`]),
      );
    }
    const one = `yardstick, ${first} runs, 1 process`;
    const two = `yardstick, ${first} runs, 2 processes`;
    if (python && existsSync(pipeline)) {
      jobs.set(one, () => other(python, [pipeline, folders.get(first)]));
      jobs.set(two, () => other(python, [pipeline, folders.get(first), "--jobs", "2"]));
    }
    const times = Object.fromEntries([...jobs.keys()].map((name) => [name, []]));
    for (let round = -1; round < rounds; round++) {
      // The first round warms the page cache for all.
      for (const [name, run] of jobs) {
        const took = run();
        if (round >= 0) times[name].push(took);
      }
    }
    return { lines: table(times, { sizes, one, two }), result: times };
  } finally {
    rmSync(root, { recursive: true, force: true });
  }
}

function fill(path, texts, runs) {
  mkdirSync(path);
  for (let i = 0; i < runs; i++) {
    const text = Buffer.concat([Buffer.from(`Specimen ${i + 1}\n`), texts[i % texts.length]]);
    writeFileSync(join(path, nameOf(i)), text);
  }
  writeFileSync(join(path, "sheet.csv"), sheet(runs));
  return path;
}

function nameOf(i) {
  return `run${String(i).padStart(5, "0")}.txt`;
}

/** Cells of five specimens: five curings and five ages for each mix. */
function sheet(runs) {
  const curings = ["sealed", "ponded", "mist", "cloth", "dry"];
  const ages = ["1d", "3d", "7d", "28d", "56d"];
  const rows = Array.from({ length: runs }, (_, i) => {
    const cell = Math.floor(i / 5);
    const mix = 1 + Math.floor(cell / 25);
    return `${nameOf(i)},M${mix},${curings[cell % 5]},${ages[Math.floor(cell / 5) % 5]},${(i % 5) + 1}`;
  });
  return `${["file,mix,curing,age,specimen", ...rows].join("\n")}\n`;
}

function own(path, root, further = []) {
  const peak = join(root, "peak");
  const args = [command, "index", path, "--out", join(root, "out"), "--no-figures", ...further];
  const env = { ...process.env, NODE_OPTIONS: `--require ${JSON.stringify(memory)}`, PEAK_MEMORY_FILE: peak };
  const s = time(process.execPath, args, env);
  return { s, MB: Number(readFileSync(peak, "utf8")) };
}

function other(python, args) {
  const s = time(python, args, process.env);
  rmSync(join(args[1], "baseline.csv"));
  return { s, MB: null };
}

function time(program, args, env) {
  const start = performance.now();
  const { status, stderr } = spawnSync(program, args, { env, encoding: "utf8", stdio: ["ignore", "ignore", "pipe"] });
  if (status !== 0) throw new Error(`${program} ${args.join(" ")} ended with ${status}: ${stderr}`);
  return (performance.now() - start) / 1000;
}

function canRun(python) {
  return spawnSync(python, ["-c", "import pandas, scipy.signal"]).status === 0;
}

function table(times, { sizes, one, two }) {
  const lines = [
    `whole processes, ${availableParallelism()} cores`,
    `${"".padEnd(36)}${["median s", "25–75 %", "peak MB"].map((text) => text.padStart(14)).join("")}`,
  ];
  for (const [name, rounds] of Object.entries(times)) {
    const { median, low, high } = spread(rounds.map(({ s }) => s));
    const MB = rounds[0].MB === null ? "" : spread(rounds.map(({ MB: peak }) => peak)).median.toFixed(0);
    const cells = [median.toFixed(2), `${low.toFixed(2)}–${high.toFixed(2)}`, MB];
    lines.push(name.padEnd(36) + cells.map((cell) => cell.padStart(14)).join(""));
  }
  // Round by round, so that a busy moment touches both sides of a ratio.
  const ratio = (above, below) => {
    const { median, low, high } = spread(times[above].map(({ s }, round) => s / times[below][round].s));
    return `${median.toFixed(2)} (${low.toFixed(2)}–${high.toFixed(2)})`;
  };
  const [first, ...others] = sizes.map((runs) => `index, ${runs} runs`);
  for (const name of [one, two]) if (times[name]) lines.push(`${name} / ${first}: ${ratio(name, first)}`);
  if (!times[one]) lines.push("No Python with pandas and SciPy, or no yardstick beside the checkout: it was left out.");
  for (const name of others) lines.push(`${name} / ${first}: ${ratio(name, first)}`);
  for (const name of others) {
    const more = spread(times[name].map(({ MB }, round) => MB - times[first][round].MB)).median;
    lines.push(`${name}, peak: ${more.toFixed(0)} MB more than ${first}`);
  }
  lines.push(`${first}, --jobs 1 / --jobs 2: ${ratio(`${first}, --jobs 1`, `${first}, --jobs 2`)}`);
  return lines;
}
