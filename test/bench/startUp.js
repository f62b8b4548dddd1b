import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { measure } from "./measure.js";
import { spread } from "./spread.js";

const root = new URL("../../", import.meta.url);
const path = (name) => fileURLToPath(new URL(name, root));
const dependencies = [
  "d3-array",
  "ml-matrix",
  "ml-savitzky-golay",
  "ml-savitzky-golay-generalized",
  "ml-spectra-processing/x",
  "papaparse/papaparse.min.js",
  "valibot",
];

/**
 * Start-up of whole processes in turns: an engine that does nothing, the command that says its version, the library against
 * what it imports itself.
 *
 * @param {{ rounds: number }} options
 * @returns {{ lines: string[], result: Record<string, number[]> }} A table, and ms of every round.
 */
export function startUp({ rounds }) {
  const imports = dependencies.map((name) => `await import(${JSON.stringify(name)});`).join("");
  const times = measure(
    {
      nothing: () => run("-e", "0"),
      "--version": () => run(path("bin/tg-hydrates.js"), "--version"),
      "--help": () => run(path("bin/tg-hydrates.js"), "--help"),
      "its dependencies": () => run("--input-type=module", "-e", imports),
      library: () =>
        run("--input-type=module", "-e", `await import(${JSON.stringify(new URL("dist/index.js", root).href)})`),
    },
    { rounds, runs: 1 },
  );
  const lines = ["start-up, ms", ...Object.entries(times).map(([name, ms]) => line(name, spread(ms)))];
  const ratio = spread(times["--version"].map((ms, round) => ms / times.nothing[round])).median;
  const more = spread(times.library.map((ms, round) => ms - times["its dependencies"][round])).median;
  lines.push(`--version / nothing: ${ratio.toFixed(2)}`, `library − its dependencies: ${more.toFixed(0)} ms`);
  return { lines, result: times };
}

function line(name, { median, low, high }) {
  return `${name.padEnd(20)}${median.toFixed(0).padStart(8)}${`${low.toFixed(0)}–${high.toFixed(0)}`.padStart(12)}`;
}

function run(...args) {
  const { status, stderr } = spawnSync(process.execPath, args, { cwd: fileURLToPath(root), encoding: "utf8" });
  if (status !== 0) throw new Error(`node ${args.join(" ")} ended with ${status}: ${stderr}`);
  return status;
}
